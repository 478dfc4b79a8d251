import { type ZoneClock, zoneClock } from '../base/zone.ts';
import type { ReadAccount, SeasonLog } from '../read/season-log.ts';
import { type Effort, effortOf } from './effort.ts';
import { type Fight, fightsOnSoaks, hoursLeft } from './fight-time.ts';
import { joinBites } from './join-bites.ts';
import { lineAges } from './line-age.ts';
import { type PlacedSoak, placeSoaks } from './place-soaks.ts';
import { positionLookup } from './positions.ts';
import { type SpoolHistory, spoolHistory } from './spool-history.ts';
import type { TidyBite, TidySoak } from './tidy-rows.ts';
import { type TidyTrip, tidyTrips } from './tidy-trips.ts';

/** The season as tidy rows: everything later is counted from these and never from the files. */
export interface TidySeason {
  readonly log: SeasonLog;
  readonly clock: ZoneClock;
  readonly trips: readonly TidyTrip[];
  /** null where the log has no soaks.csv. */
  readonly soaks: readonly TidySoak[] | null;
  readonly bites: readonly TidyBite[];
  readonly spools: SpoolHistory;
  readonly effort: Effort;
  /** What became of every row, with the warnings that came up when rows were joined. */
  readonly account: ReadAccount;
}

/** Joins bites to soaks and soaks to spools, takes fights off, and works out line age. */
export function tidySeason(log: SeasonLog): TidySeason {
  const clock = zoneClock(log.settings.time_zone);
  const trips = tidyTrips(log.trips, clock);
  const spools = spoolHistory(log.spools ?? []);
  const context = {
    clock,
    trips: new Map(trips.map((trip) => [trip.trip_id, trip])),
    positionOf: positionLookup(log.settings),
    spools,
  };
  const placed = placeSoaks(log.soaks ?? [], context);
  const { bites, warnings } = joinBites(log.bites, placed, context);
  const fights = fightsOnSoaks(placed, bites, log.settings.fight_clears);
  const lineHours = placed.map((soak, at) => fishingHours(soak, fights[at] ?? []));
  const ages = lineAges(placed, bites, spools, lineHours);
  const soaks = placed.map((soak, at) => ({
    ...soak,
    fights: fights[at] ?? [],
    lineHours: lineHours[at] ?? null,
    lineAge: ages.ofSoak[at] ?? null,
  }));
  for (const [at, bite] of bites.entries()) bite.lineAge = ages.ofBite[at] ?? null;
  const season = {
    log,
    clock,
    trips,
    soaks: log.soaks === null ? null : soaks,
    bites,
    spools,
    account: warnings.joinedTo(log.account),
  };
  return { ...season, effort: effortOf(season, log.settings) };
}

function fishingHours(soak: PlacedSoak, fights: readonly Fight[]): number | null {
  if (soak.grossHours === null) return null;
  return hoursLeft(soak.grossHours - fights.reduce((sum, fight) => sum + fight.hours, 0));
}
