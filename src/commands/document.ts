import type { Estimate } from '../base/estimate.ts';
import type { GroupRate } from '../estimate/group-rate.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import type { CommonOptions } from './options.ts';
import { seasonWarnings } from './season-warnings.ts';

/** The part that every machine-readable document begins with. */
export function documentHead(command: string, season: TidySeason, options: CommonOptions) {
  const { log } = season;
  const sum = (name: 'rowsRead' | 'rowsUsed' | 'rowsSetAside') =>
    log.account.files.reduce((total, file) => total + file[name], 0);
  const { level, seed, only, from, to } = options;
  return {
    schema: `linehours/${command}@1`,
    log: {
      name: log.name,
      trips: log.trips.length,
      soaks: log.soaks?.length ?? null,
      bites: log.bites.reduce((total, bite) => total + bite.count, 0),
      rows_read: sum('rowsRead'),
      rows_used: sum('rowsUsed'),
      rows_set_aside: sum('rowsSetAside'),
      line_hours: seasonLineHours(season),
    },
    settings: { level, seed, only, from, to },
    warnings: seasonWarnings(season),
  };
}

/** Line-hours of the whole log; null where no trip has any recorded. */
export function seasonLineHours({ effort }: TidySeason): number | null {
  if (effort.units.length === 0) return null;
  return effort.units.reduce((total, unit) => total + unit.lineHours, 0);
}

/** A figure of a table of rates as the documents carry it; null with a note where there is none. */
export function rateRecord(row: GroupRate) {
  const { rate } = row;
  return {
    measure: row.measure,
    by: row.by,
    trips: row.trips,
    bites: row.bites,
    hooked: row.hooked,
    caught: row.caught,
    released: row.released,
    kept: row.kept,
    line_hours: row.line_hours,
    numerator: row.numerator,
    denominator: row.denominator,
    ...limitsRecord(rate),
    method: rate.method,
    design_effect: row.design_effect,
    effort_cover: row.effort_cover,
    notes: notesOf(rate),
  };
}

/** `{estimate, lower, upper}`: null each where the figure cannot be given or the end is open. */
export function limitsRecord(figure: Estimate): {
  readonly estimate: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
} {
  if (figure.kind === 'not-estimable') return { estimate: null, lower: null, upper: null };
  const finite = (value: number) => (Number.isFinite(value) ? value : null);
  return {
    estimate: finite(figure.estimate),
    lower: finite(figure.lower),
    upper: finite(figure.upper),
  };
}

/** The notes of a figure, its reason first where it cannot be given. */
export function notesOf(figure: Estimate): readonly string[] {
  return figure.kind === 'not-estimable' ? [figure.reason, ...figure.notes] : figure.notes;
}

/** One JSON document alone, with a line end. */
export function documentText(document: object): string {
  return `${JSON.stringify(document, null, 2)}\n`;
}
