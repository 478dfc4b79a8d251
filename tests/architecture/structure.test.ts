import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { describe, expect, test } from 'vitest';
import { VERSION } from '../../src/version.ts';

const root = resolve(import.meta.dirname, '../..');
const sources = readdirSync(join(root, 'src'), { recursive: true, encoding: 'utf8' })
  .filter((name) => /\.tsx?$/.test(name))
  .map((name) => name.replaceAll('\\', '/'))
  .sort();

/** The flow of data; a folder may import from itself and from those before it. */
const FLOW = [
  'base',
  'settings',
  'read',
  'tidy',
  'tally',
  'stats',
  'estimate',
  'decide',
  'draw',
  'write',
  'share',
  'commands',
];

const folderOf = (file: string) => (file.includes('/') ? (file.split('/')[0] ?? '') : file);

function importsOf(file: string): string[] {
  const text = readFileSync(join(root, 'src', file), 'utf8');
  const found = [...text.matchAll(/(?:from|import)\s*\(?\s*'(\.[^']+)'/g)];
  return found.map(([, path = '']) =>
    relative(join(root, 'src'), resolve(dirname(join(root, 'src', file)), path)),
  );
}

function linesOf(file: string): number {
  return readFileSync(join(root, 'src', file), 'utf8').split('\n').length - 1;
}

describe('the structure of the source', () => {
  test('imports follow the data, one way', () => {
    const upward = sources.flatMap((file) => {
      const from = FLOW.indexOf(folderOf(file));
      if (from < 0) return [];
      return (
        importsOf(file)
          .filter((target) => FLOW.indexOf(folderOf(target)) > from || !target.includes('/'))
          .filter((target) => target !== 'version.ts')
          // Commands tell their part of the story through the one file that tells it whole.
          .filter((target) => !(target === 'season.ts' && folderOf(file) === 'commands'))
          .map((target) => `${file} imports ${target}`)
      );
    });
    expect(upward).toEqual([]);
  });

  test('the statistics know nothing of logs: numbers in, numbers out', () => {
    const outside = sources
      .filter((file) => file.startsWith('stats/'))
      .flatMap((file) =>
        importsOf(file)
          .filter((target) => !['stats', 'base'].includes(folderOf(target)))
          .map((target) => `${file} imports ${target}`),
      );
    expect(outside).toEqual([]);
  });

  test('no file imports itself by way of others', () => {
    const graph = new Map(sources.map((file) => [file, importsOf(file)]));
    const cycles: string[] = [];
    const done = new Set<string>();
    const visit = (file: string, path: readonly string[]): void => {
      if (path.includes(file)) cycles.push([...path.slice(path.indexOf(file)), file].join(' → '));
      if (path.includes(file) || done.has(file)) return;
      for (const target of graph.get(file) ?? []) visit(target, [...path, file]);
      done.add(file);
    };
    for (const file of sources) visit(file, []);
    expect(cycles).toEqual([]);
  });

  test('files stay small, and every folder of the source is in the flow', () => {
    expect(sources.filter((file) => linesOf(file) > 300)).toEqual([]);
    const folders = new Set(sources.filter((file) => file.includes('/')).map(folderOf));
    expect([...folders].filter((folder) => !FLOW.includes(folder))).toEqual([]);
  });

  test('the version is the package’s', () => {
    const manifest = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
    expect(VERSION).toBe(manifest.version);
  });
});
