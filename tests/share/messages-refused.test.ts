import { describe, expect, test } from 'vitest';
import { UserError } from '../../src/base/problem.ts';
import { refuseHits } from '../../src/share/messages-refused.ts';
import type { ScanHit } from '../../src/share/scan-package.ts';

const WORD: ScanHit = {
  file: 'catch.csv',
  line: 3,
  found: 'Sol',
  what: 'a part of angler in bites.csv',
  isWord: true,
};
const DATE: ScanHit = { ...WORD, line: null, found: '20250304', what: 'a date', isWord: false };

function refusal(hits: readonly ScanHit[]): string {
  try {
    refuseHits(hits);
  } catch (error) {
    expect(error).toBeInstanceOf(UserError);
    expect((error as UserError).exitCode).toBe(4);
    return (error as UserError).message;
  }
  throw new Error('It was let through.');
}

describe('the way on from what the scan found', () => {
  const NOT_CLEARED = 'A position, a date or a clock time cannot be cleared with --allow.';

  test('a word may be cleared, by itself', () => {
    expect(refusal([WORD])).toContain('--allow "Sol"');
    expect(refusal([WORD])).not.toContain(NOT_CLEARED);
  });

  test('a date may not, though it be a figure that reads like one: what to change instead', () => {
    const said = refusal([DATE]);
    expect(said).toContain('"20250304" in catch.csv: a date');
    expect(said).not.toContain('--allow "');
    expect(said).toContain(NOT_CLEARED);
    expect(said).toContain('--from, --to');
  });

  test('both together: the word alone is offered', () => {
    const said = refusal([WORD, DATE]);
    expect(said).toContain('--allow "Sol".');
    expect(said).toContain(NOT_CLEARED);
  });
});
