import { describe, expect, test } from 'vitest';
import { expectClose, type Json, loadReference } from '../helpers/reference.ts';
import { runCommand } from '../helpers/run-command.ts';

// The table `linehours rates` prints for a whole season against R, which reads the same CSV files and
// shares no code: tests/reference/25-season-rates.R (base R).

interface Row {
  readonly by: Readonly<Record<string, string>>;
  readonly measures: Readonly<Record<string, Json>>;
}

interface Inputs {
  readonly season: string;
  readonly by: readonly string[];
  readonly level: number;
}

type Figure = Readonly<Record<string, Json>> & Pick<Row, 'by'> & { readonly measure: string };

const SAMPLES = `${import.meta.dirname}/../../data-samples`;

describe.each(loadReference<Inputs, { rows: Row[] }>('25-season-rates'))(
  '$description (R)',
  async ({ inputs, expected, tolerance }) => {
    const figures = await figuresBy(inputs);

    test('the command has the levels R has, and no others', () => {
      const got = new Set(figures.map(({ by }) => nameOf(by)));
      expect([...got].sort()).toEqual(expected.rows.map(({ by }) => nameOf(by)).sort());
    });

    for (const { by, measures, ...counts } of expected.rows) {
      test(nameOf(by), () => {
        const ofLevel = figures.filter((figure) => nameOf(figure.by) === nameOf(by));
        expect(ofLevel.map(({ measure }) => measure).sort()).toEqual(Object.keys(measures).sort());
        for (const figure of ofLevel)
          expectClose(figure, { ...counts, ...fieldsOf(measures[figure.measure]) }, tolerance);
      });
    }
  },
);

const nameOf = (by: Row['by']): string => Object.values(by).join(', ');

const fieldsOf = (figure: Json | undefined): Record<string, Json> => figure as Record<string, Json>;

/** All figures of one table, as the command prints them for machines. */
async function figuresBy({ season, by, level }: Inputs): Promise<readonly Figure[]> {
  const { out } = await runCommand(
    ...['rates', `${SAMPLES}/${season}`, '--by', by.join(','), '--level', String(level), '--json'],
  );
  return (JSON.parse(out) as { estimates: Figure[] }).estimates;
}
