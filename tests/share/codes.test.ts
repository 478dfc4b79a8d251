import { describe, expect, test } from 'vitest';
import { GEAR_CODES } from '../../src/share/gear-codes.ts';
import { speciesCode } from '../../src/share/species-codes.ts';
import { loadCheckValue } from '../helpers/reference.ts';

const none = Object.create(null);
const setting = (code: string | null) => ({ code, spellings: [], kept: null });

describe('species codes', () => {
  // FAO ASFIS list, 3-alpha codes (tests/reference/check-values.json).
  const { expected } = loadCheckValue<object, Record<string, string>>('asfis-codes');

  test('a plain name that means one species the world over has the code of the official list', () => {
    const oneOcean = ['Blue marlin (Makaira nigricans)', 'Pacific blue marlin (M. mazara)'];
    const named = Object.entries(expected).filter(
      ([name]) => !name.startsWith('bait: ') && !/NEI$/.test(name) && !oneOcean.includes(name),
    );
    expect(named.length).toBeGreaterThan(25);
    for (const [name, code] of named) {
      expect(speciesCode(name, none), name).toEqual({ code, from: 'name' });
    }
  });

  test('the owner’s code comes first', () => {
    expect(speciesCode('wahoo', { wahoo: setting('XYZ') })).toEqual({
      code: 'XYZ',
      from: 'settings',
    });
    expect(speciesCode('sailfish', { sailfish: setting('SFA') }).code).toBe('SFA');
  });

  test('a name that is one species here and another there is told no closer than it is', () => {
    for (const word of ['sailfish', 'Blue Marlin', 'spearfish']) {
      expect(speciesCode(word, none)).toEqual({
        code: expected['Marlins, sailfishes, etc. NEI'],
        from: 'group',
      });
    }
    // MZZ, marine fishes nei: ASFIS, from memory.
    for (const word of [null, 'grander', 'constructor']) {
      expect(speciesCode(word, none)).toEqual({ code: 'MZZ', from: 'group' });
    }
  });
});

test('gear codes are those of the ISSCFG list', () => {
  const { expected } = loadCheckValue<object, Record<string, string>>('isscfg-gear');
  const isscfg = Object.entries(expected).filter(([name]) => /^09/.test(name));
  for (const [name, code] of isscfg) {
    expect(GEAR_CODES[code as keyof typeof GEAR_CODES]).toContain(`(${name.slice(0, 4)})`);
  }
  expect(Object.keys(GEAR_CODES).sort()).toEqual(isscfg.map(([, code]) => code).sort());
});
