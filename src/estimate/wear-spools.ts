import { groupBy } from '../base/group-by.ts';
import type { SpoolRow } from '../read/rows.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import type { WearBite, WearFilter, WearRecords, WearSoak } from './wear-records.ts';

/** The units a line's age is counted in here; `lineHours` where soaks are timed. */
export const AGE_UNITS = ['fights', 'trips', 'lineHours'] as const;
export type AgeUnit = (typeof AGE_UNITS)[number];

/** An age in every unit; line-hours are null where a soak's hours are not recorded. */
export type SpoolAge = Readonly<Record<'fights' | 'trips', number>> & {
  readonly lineHours: number | null;
};

/** One filling of one reel, as far as the log (or the part asked for) has seen it. */
export interface SpoolLife {
  readonly spool: SpoolRow;
  /** Its age at the last trip seen. */
  readonly age: SpoolAge;
  readonly breaks: number;
  /** Its age at the first break; null: none seen. */
  readonly firstBreak: SpoolAge | null;
  /** Whether it was seen from new: none of its life lies before the dates asked for. */
  readonly isWhole: boolean;
}

/**
 * The life of every spool that was fished, in the order of `spools.csv` by rod and date. A spool
 * that was filled and never fished has none.
 */
export function spoolLives(
  season: TidySeason,
  records: WearRecords,
  { from }: WearFilter,
): SpoolLife[] {
  const bitesOf = groupBy(records.bites, (bite) => bite.spool);
  const soaksOf = groupBy(records.soaks, (soak) => soak.spool);
  const startedBefore = new Set(
    from === null ? [] : spoolsMet(season).flatMap(({ spool, date }) => (date < from ? spool : [])),
  );
  return season.spools.all.flatMap((spool) => {
    const bites = bitesOf.get(spool) ?? [];
    const soaks = soaksOf.get(spool) ?? [];
    if (bites.length === 0 && soaks.length === 0) return [];
    return [
      {
        spool,
        age: ageSeen(bites, soaks),
        breaks: bites.reduce((sum, bite) => sum + bite.breaks, 0),
        firstBreak: firstBreak(bites, soaks),
        isWhole: !startedBefore.has(spool),
      },
    ];
  });
}

function spoolsMet({ bites, soaks }: TidySeason) {
  return [...bites, ...(soaks ?? [])].flatMap(({ lineAge, trip }) =>
    lineAge === null ? [] : [{ spool: lineAge.spool, date: trip.date }],
  );
}

function ageSeen(bites: readonly WearBite[], soaks: readonly WearSoak[]): SpoolAge {
  const ages = [...bites, ...soaks].map(({ age }) => age);
  const fished = soaks.map(({ age, lineHours }) => age.lineHours + (lineHours ?? 0));
  return {
    fights: Math.max(...ages.map(({ fights }) => fights)),
    trips: Math.max(...ages.map(({ trips }) => trips)),
    lineHours: isTimed(soaks) ? Math.max(...fished) : null,
  };
}

function firstBreak(bites: readonly WearBite[], soaks: readonly WearSoak[]): SpoolAge | null {
  const found = bites.find(({ breaks }) => breaks > 0);
  if (found === undefined) return null;
  const { age, breaks, isOnHours } = found;
  return {
    fights: age.fights - breaks + 1,
    trips: age.trips,
    lineHours: isOnHours && isTimed(soaks) ? age.lineHours : null,
  };
}

/** Hours on a line are known when every one of its soaks has them. */
function isTimed(soaks: readonly WearSoak[]): boolean {
  return soaks.length > 0 && soaks.every(({ lineHours }) => lineHours !== null);
}
