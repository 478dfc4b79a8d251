import { mkdtempSync, readdirSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { describe, expect, test } from 'vitest';
import { makePackage, PACKAGED } from '../../data-samples/make/make-packages.ts';
import { packageFaults } from '../share/data-package-rules.ts';
import { filesOf } from '../share/package-reader.ts';

const SAMPLES = resolve(import.meta.dirname, '../../data-samples');

describe.each(PACKAGED)('the package of %s', (name) => {
  const folder = join(SAMPLES, 'packages', name);

  test('holds the tables that share makes of the log, byte for byte', async () => {
    const out = join(mkdtempSync(join(tmpdir(), 'package-')), 'package');
    await makePackage(name, out);
    expect(readdirSync(out).sort()).toEqual(readdirSync(folder).sort());
    for (const table of readdirSync(out).filter((file) => file.endsWith('.csv'))) {
      expect(readFileSync(join(folder, table), 'utf8')).toBe(
        readFileSync(join(out, table), 'utf8'),
      );
    }
  });

  test('follows the standard and its own schemas', () => {
    expect(packageFaults(filesOf(folder))).toEqual([]);
  });

  test('tells no boat, harbour, angler or day', () => {
    const text = Object.values(filesOf(folder)).join('\n');
    expect(text).not.toMatch(
      /Linnet|Sable|Marrowind|Hesper|Farrowmere|North Horn|Bank Edge|Low Comb/i,
    );
    expect(text).not.toMatch(/202[45]-\d\d-\d\d/);
  });
});
