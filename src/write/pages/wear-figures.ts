import type { Estimate } from '../../base/estimate.ts';
import { type FigureStyle, figureText } from '../../base/format-figure.ts';
import type { LineAdvice } from '../../decide/respool-advice.ts';
import type { WearFigures } from '../../estimate/wear-bands.ts';
import type { Column } from '../data-table.tsx';
import { ENOUGH } from './enough.ts';

/** Breaks, and pulled hooks, as pages tell them. */
export const PER_100_FIGHTS: FigureStyle = { kind: 'rate', scale: 100, per: '100 fights' };
/** A plain number whose heading carries its unit. */
export const PLAIN: FigureStyle = { kind: 'number', unit: '' };

/** Whether a band rests on too little: fewer than 10 fights or 5 trips. Common practice, no source. */
export function isThinWear({ fights, trips }: WearFigures): boolean {
  return fights < ENOUGH.bites || trips < ENOUGH.trips;
}

export const THIN_WEAR = `Hollow and grey: fewer than ${ENOUGH.bites} fights or ${ENOUGH.trips} trips.`;

/** A column of a figure with its interval, and its three values for the CSV file. */
export function figureColumn<Row>(
  head: string,
  { of, name, style }: { of: (row: Row) => Estimate | null; name: string; style: FigureStyle },
): Column<Row> {
  const limit = (end: 'estimate' | 'lower' | 'upper') => (row: Row) => {
    const figure = of(row);
    return figure?.kind === 'estimated' ? figure[end] : null;
  };
  return {
    head,
    kind: 'number',
    cell: (row) => {
      const figure = of(row);
      return figure === null ? '' : figureText(figure, style).short;
    },
    csv: [
      { head: name, value: limit('estimate') },
      { head: `${name}_lower`, value: limit('lower') },
      { head: `${name}_upper`, value: limit('upper') },
    ],
  };
}

/** The line that was fished most first: the answer is about that one. */
export function byFights(lines: readonly LineAdvice[]): LineAdvice[] {
  return [...lines].sort((a, b) => b.line.fights - a.line.fights);
}
