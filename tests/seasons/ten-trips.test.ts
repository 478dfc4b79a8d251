import { describe, expect, test } from 'vitest';
import { runCommand } from '../helpers/run-command.ts';

// A log small enough to work out by hand. Mullet on the port long from 07:00 to 11:00, scad on the
// starboard short from 07:00 to 09:00, ten trips; each mullet fight lasts 30 minutes, each scad
// fight 12. Mullet: 17 bites, 12 hooked; 10 × 4 h − 12 × 0.5 h =
// 34 line-hours. Scad: 7 bites, 4 hooked; 10 × 2 h − 4 × 0.2 h = 19.2 line-hours.
// Limits: worked out from the formulas by an R script of 20 lines that shares nothing with this code.
const log = `${import.meta.dirname}/ten-trips`;

interface Row {
  readonly measure: string;
  readonly by: Readonly<Record<string, string>>;
  readonly [field: string]: unknown;
}

async function rates(...words: readonly string[]): Promise<readonly Row[]> {
  const { out, exitCode, err } = await runCommand('rates', log, '--json', ...words);
  expect(err).toBe('');
  expect(exitCode).toBe(0);
  return JSON.parse(out).estimates;
}

describe('ten trips worked out by hand', () => {
  test('counts, line-hours and shares by bait', async () => {
    const [mullet, scad] = await rates('--by', 'bait', '--measure', 'hookup_rate');
    expect(mullet).toMatchObject({ by: { bait: 'mullet' }, trips: 9, bites: 17, hooked: 12 });
    expect(mullet).toMatchObject({ caught: 10, released: 8, kept: 2, line_hours: 34 });
    expect(scad).toMatchObject({ by: { bait: 'scad' }, trips: 7, bites: 7, hooked: 4 });
    expect(scad).toMatchObject({ caught: 3, released: 2, kept: 1, effort_cover: 1 });
    expect(scad?.line_hours).toBeCloseTo(19.2, 12);
  });

  test('hookup rates with their limits', async () => {
    const [mullet, scad] = await rates('--by', 'bait', '--measure', 'hookup_rate');
    expect(mullet?.estimate).toBeCloseTo(12 / 17, 12);
    expect(mullet?.lower).toBeCloseTo(0.376443958056457, 10);
    expect(mullet?.upper).toBeCloseTo(0.905133081461959, 10);
    expect(mullet?.design_effect).toBeCloseTo(1.391369047619048, 10);
    expect(scad?.lower).toBeCloseTo(0.18419411643069, 10);
    expect(scad?.upper).toBeCloseTo(0.887309667401293, 10);
    const [whole] = await rates('--measure', 'hookup_rate');
    expect(whole).toMatchObject({ by: {}, numerator: 16, denominator: 24 });
    expect(whole?.lower).toBeCloseTo(0.399173327443466, 10);
  });

  test('bites per line-hour with their limits', async () => {
    const [mullet, scad] = await rates('--by', 'bait', '--measure', 'bites_per_line_hour');
    expect(mullet?.estimate).toBeCloseTo(17 / 34, 12);
    expect(mullet?.lower).toBeCloseTo(0.26374075836469, 10);
    expect(mullet?.upper).toBeCloseTo(0.860756887775892, 10);
    expect(scad?.estimate).toBeCloseTo(7 / 19.2, 12);
    expect(scad?.upper).toBeCloseTo(0.83465195319325, 10);
  });

  test('months, wind and line type divide the same bites', async () => {
    for (const factor of ['month', 'wind_band', 'line_type', 'position', 'reach', 'hook_size']) {
      const rows = await rates('--by', factor, '--measure', 'hookup_rate');
      const bites = rows.reduce((sum, row) => sum + Number(row.denominator), 0);
      expect(bites, factor).toBe(24);
    }
    const wind = await rates('--by', 'wind_band', '--measure', 'hookup_rate');
    // 3 and 5 kn are forces 1 and 2; 8, 9 force 3; 11 to 15 force 4; 18 and 20 force 5.
    expect(wind.map((row) => row.by.wind_band)).toEqual(['1', '2', '3', '4', '5']);
  });
});
