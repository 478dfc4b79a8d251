import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { expectClose, type Json, loadCheckValue, loadReference } from '../helpers/reference.ts';
import { runCommand } from '../helpers/run-command.ts';

// Published tables of two groups over strata, written as small logs whose trips are the strata and
// read by the compare command. Each stratum stands in a month of its own, so that month, a default
// covariate, holds it equal in the adjusted lens. R: tests/reference/27-published-tables.R; the
// sources stand there and in each log's season.yaml. Errors here are by trip and the publications'
// are not, so only figures are compared, and the odds ratio's own interval.

interface Limits {
  readonly estimate: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
}

interface LensRecord {
  readonly difference: Limits;
  readonly ratio: Limits;
  readonly odds_ratio: Limits | null;
  readonly a: Limits;
  readonly b: Limits;
}

interface CompareRecord {
  readonly lenses: Readonly<Record<'as_logged' | 'same_day' | 'adjusted', LensRecord>>;
  readonly sentence: string;
}

interface Stratum {
  readonly stratum: string | number;
  readonly y1: number;
  readonly n1: number;
  readonly y0: number;
  readonly n0: number;
}

const folderOf = (id: string) => join(import.meta.dirname, id);

async function compare(id: string, ...words: readonly string[]): Promise<CompareRecord> {
  const { out, err } = await runCommand(
    'compare',
    folderOf(id),
    ...['--factor', 'line_type', '--json'],
    ...words,
  );
  expect(err).toBe('');
  return JSON.parse(out);
}

/** The figures of a lens, without their intervals. */
function figures(lens: LensRecord) {
  const { difference, ratio, odds_ratio, a, b } = lens;
  return {
    a: a.estimate,
    b: b.estimate,
    difference: difference.estimate,
    ratio: ratio.estimate,
    oddsRatio: odds_ratio?.estimate ?? null,
    oddsRatioLower: odds_ratio?.lower ?? null,
    oddsRatioUpper: odds_ratio?.upper ?? null,
  };
}

type Expected = Record<'asLogged' | 'sameDay' | 'adjusted', Record<string, Json>>;

const cases = loadReference<{ strata: Stratum[] }, Expected>('27-published-tables');
const shares = cases.filter(({ id }) => id !== 'doctors');

describe('each log holds the counts of its table', () => {
  test.each(shares)('$id', ({ id, inputs }) => {
    const rows = readFileSync(join(folderOf(id), 'bites.csv'), 'utf8')
      .trim()
      .split('\n')
      .slice(1);
    const lines = [...new Set(rows.map((row) => row.split(',')[1]))];
    const count = (trip: string, line: string | undefined, outcome: string) => {
      const found = rows.find((row) => row.startsWith(`${trip},${line},${outcome},`));
      return Number(found?.split(',')[3] ?? 0);
    };
    for (const { stratum, y1, n1, y0, n0 } of inputs.strata) {
      const [a, b] = lines.map((line) => {
        const hooked = count(String(stratum), line, 'lost');
        return [hooked, hooked + count(String(stratum), line, 'missed')];
      });
      expect([a, b], String(stratum)).toEqual([
        [y1, n1],
        [y0, n0],
      ]);
    }
  });
});

describe('three lenses on published tables', () => {
  test.each(shares)('$id: $description', async ({ id, expected, tolerance }) => {
    const { lenses } = await compare(id);
    expectClose(figures(lenses.as_logged), expected.asLogged, tolerance);
    expectClose(figures(lenses.same_day), expected.sameDay, tolerance);
    // The chance with every case set to one group is withheld where it rests on one stratum.
    const { a, b, ...contrasts } = expected.adjusted;
    expectClose(figures(lenses.adjusted), contrasts, { ...tolerance, rel: 1e-7 });
    for (const [name, value] of Object.entries({ a, b })) {
      const got = lenses.adjusted[name as 'a' | 'b'].estimate;
      if (got !== null) expectClose(got, value, { ...tolerance, rel: 1e-7 });
    }
  });

  test('doctors: rates over person-years', async () => {
    const [found] = cases.filter(({ id }) => id === 'doctors');
    const { expected, tolerance } = found ?? expect.fail('no case');
    const { lenses } = await compare('doctors', '--measure', 'bites_per_line_hour');
    expectClose(figures(lenses.as_logged), expected.asLogged, tolerance);
    expectClose(figures(lenses.same_day), expected.sameDay, tolerance);
    const { ratio, difference } = expected.adjusted;
    expectClose(figures(lenses.adjusted), { ratio, difference }, { ...tolerance, rel: 1e-7 });
    // Mantel-Haenszel rate ratio as textbooks print it: 1.42 (from memory).
    expect(lenses.same_day.ratio.estimate).toBeCloseTo(1.42, 2);
  });
});

describe('check values seen in the publications or worked out from them', () => {
  test('kidney stones: the worse operation in all is the better one for each size', async () => {
    const { lenses } = await compare('kidney-stones');
    const { expected, tolerance } = loadCheckValue<Json, Record<string, number>>('mh-kidney');
    expectClose(
      {
        crude_A: lenses.as_logged.a.estimate,
        crude_B: lenses.as_logged.b.estimate,
        OR_MH: lenses.same_day.odds_ratio?.estimate,
        OR_ci: [lenses.same_day.odds_ratio?.lower, lenses.same_day.odds_ratio?.upper],
        RR_MH: lenses.same_day.ratio.estimate,
        RD_MH: lenses.same_day.difference.estimate,
      },
      pick(expected, ['crude_A', 'crude_B', 'OR_MH', 'OR_ci', 'RR_MH', 'RD_MH']),
      tolerance,
    );
    expect(lenses.as_logged.difference.estimate).toBeLessThan(0);
    expect(lenses.same_day.difference.estimate).toBeGreaterThan(0);
    const standardised = loadCheckValue<Json, Record<string, number>>('gcomp-kidney');
    expectClose(
      {
        p_A: lenses.adjusted.a.estimate,
        p_B: lenses.adjusted.b.estimate,
        RD: lenses.adjusted.difference.estimate,
        RR: lenses.adjusted.ratio.estimate,
      },
      pick(standardised.expected, ['p_A', 'p_B', 'RD', 'RR']),
      standardised.tolerance,
    );
  });

  test('admissions: men ahead in all, not within departments', async () => {
    const { lenses } = await compare('admissions');
    const { expected, tolerance } = loadCheckValue<Json, Record<string, number>>('mh-ucb');
    expectClose(
      {
        crude_OR: lenses.as_logged.odds_ratio?.estimate,
        OR_MH: lenses.same_day.odds_ratio?.estimate,
        OR_ci_RBG: [lenses.same_day.odds_ratio?.lower, lenses.same_day.odds_ratio?.upper],
        RR_MH: lenses.same_day.ratio.estimate,
        RD_MH: lenses.same_day.difference.estimate,
      },
      pick(expected, ['crude_OR', 'OR_MH', 'OR_ci_RBG', 'RR_MH', 'RD_MH']),
      tolerance,
    );
    expect(lenses.as_logged.difference.estimate).toBeGreaterThan(0.1);
    expect(lenses.same_day.difference.estimate).toBeLessThan(0);
  });

  test('oesophagus: odds ratio over bands of age', async () => {
    const { lenses } = await compare('oesophagus');
    const { expected, tolerance } = loadCheckValue<Json, Record<string, number>>(
      'mh-ille-et-vilaine',
    );
    const { estimate, lower, upper } = lenses.same_day.odds_ratio ?? expect.fail('none');
    expectClose(
      { OR_MH: estimate, OR_ci: [lower, upper] },
      pick(expected, ['OR_MH', 'OR_ci']),
      tolerance,
    );
  });
});

function pick(values: Readonly<Record<string, unknown>>, names: readonly string[]) {
  return Object.fromEntries(names.map((name) => [name, values[name]]));
}
