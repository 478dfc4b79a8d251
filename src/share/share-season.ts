import { basename, resolve } from 'node:path';
import { groupBy } from '../base/group-by.ts';
import { plural } from '../base/words.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import type { TidyTrip } from '../tidy/tidy-trips.ts';
import { writeFolder } from '../write/write-folder.ts';
import { consentRefusal } from './consent.ts';
import { differences } from './differencing.ts';
import { type IdentifyingValues, identifyingValues } from './identifying-values.ts';
import { differenceRefusal, noPlaceRefusal, refuseHits } from './messages-refused.ts';
import { noiseRefusal, noiseUndone } from './noise-over.ts';
import { packageFiles } from './package-files.ts';
import { openPrivateFolder } from './private-folder.ts';
import { pseudonym } from './pseudonym.ts';
import { withRelease } from './release-ledger.ts';
import { type ScanHit, type ScanResult, scanPackage } from './scan-package.ts';
import { rawCells } from './scan-raw-cells.ts';
import { templateText } from './scan-template.ts';
import { shareCells } from './share-cells.ts';
import type { ShareChoices } from './share-options.ts';
import { type ShareTrip, shareTrips } from './share-trip.ts';
import { shareTripsOneByOne } from './share-trips-one-by-one.ts';
import type { SharedPackage } from './shared-package.ts';
import type { SharedFile } from './table-schema.ts';
import type { Hidden, TierResult } from './tier-result.ts';
import { TRIP_TIMES, type TripTime, tripTimeText } from './trip-classes.ts';
import { releaseOf } from './trip-token.ts';

/** What is to leave, and where to. */
export interface ShareRequest {
  readonly logFolder: string;
  readonly out: string;
  readonly choices: ShareChoices;
  /** null: sums by cell; else trips one by one, each among k alike. */
  readonly oneByOne: { readonly k: number; readonly time: TripTime } | null;
  readonly from: string | null;
  readonly to: string | null;
  readonly isKept: (trip: TidyTrip) => boolean;
  /** Words that the owner says point to nobody. */
  readonly allowed: readonly string[];
}

/** A package that was written, or the reason why none was. */
export type ShareOutcome =
  | { readonly kind: 'refused'; readonly reason: string }
  | {
      readonly kind: 'written';
      readonly shared: SharedPackage;
      readonly files: readonly SharedFile[];
      readonly release: number;
      readonly hidden: Hidden;
      readonly scan: ScanResult;
      readonly owner: OwnerNotes;
    };

/** What the owner should know of a package, and nobody else. */
export interface OwnerNotes {
  /** Whether key and ledger were made for it. */
  readonly isFirst: boolean;
  /** Vessels counted as different, as the log spells them, with their trips. */
  readonly vessels: readonly { readonly name: string; readonly trips: number }[];
  /** Earlier packages that show without noise what this one shows with it, or the other way round. */
  readonly undone: readonly number[];
  /** What of the log the name of the folder gives away. */
  readonly folderHits: readonly ScanHit[];
}

/**
 * Makes a package from a log and writes it, if everything in it may leave.
 * @throws UserError with exit code 4 where the scan finds something of the log in it; then nothing
 *   was written anywhere.
 */
export async function shareSeason(
  season: TidySeason,
  request: ShareRequest,
): Promise<ShareOutcome> {
  const { choices, logFolder, out } = request;

  // 1 · the trips, and whether they may leave at all
  const trips = shareTrips(season, request);
  const consent = consentRefusal(trips, choices);
  if (consent !== null) return { kind: 'refused', reason: consent };

  // 2 · sums, or trips among others alike, with what must be left out of them
  const home = await openPrivateFolder(logFolder);
  const tier = tierOf(season, trips, { ...request, key: home.key });
  if (typeof tier === 'string') return { kind: 'refused', reason: tier };

  // 3 · nothing that earlier packages and this one would give away together
  const release = releaseOf(tier, choices, home.key);
  const found = differences(home.ledger, release);
  if (found.length > 0)
    return { kind: 'refused', reason: differenceRefusal(found, trips, home.key) };
  const averaged = noiseRefusal(home.ledger, release);
  if (averaged !== null) return { kind: 'refused', reason: averaged };
  const noted = withRelease(home.ledger, release);

  // 4 · files, and every byte of them held against the log
  const values = await identifyingValues(season, rawCells(logFolder, season.log.settings));
  const shared = sharedPackage(tier, choices, { key: home.key, values });
  const files = packageFiles(shared, noted.number);
  const looked = {
    template: templateText(choices),
    codes: [...tier.species, choices.gear],
    periods: periodTexts(trips),
    allowed: request.allowed,
  };
  const scan = scanPackage(files, values, looked);
  refuseHits(scan.hits);
  const folderName = { name: basename(resolve(out)), text: '', resource: null };

  // 5 · the account of it first, so that no package is out that the ledger does not know
  await home.keep(noted.ledger);
  await writeFolder(out, files).catch(async (error: unknown) => {
    await home.putBack();
    throw error;
  });
  const owner: OwnerNotes = {
    isFirst: home.ledger.releases.length === 0,
    vessels: vesselsOf(season.trips, trips),
    undone: noiseUndone(home.ledger, release),
    folderHits: scanPackage([folderName], values, looked).hits,
  };
  const { hidden } = tier;
  return { kind: 'written', shared, files, release: noted.number, hidden, scan, owner };
}

/** Each vessel in the spelling that the log has first. */
function vesselsOf(all: readonly TidyTrip[], trips: readonly ShareTrip[]): OwnerNotes['vessels'] {
  const names = new Map(all.map(({ trip_id, vessel }) => [trip_id, vessel]));
  return [...groupBy(trips, (trip) => trip.vessel).values()].map((own) => {
    const named = own.map((trip) => names.get(trip.trip_id)).find((name) => name != null);
    return { name: named ?? 'not named', trips: own.length };
  });
}

/** Every way a package may name the periods of these trips. */
function periodTexts(trips: readonly ShareTrip[]): string[] {
  return [...new Set(trips.flatMap((trip) => TRIP_TIMES.map((time) => tripTimeText(trip, time))))];
}

function tierOf(
  season: TidySeason,
  trips: readonly ShareTrip[],
  { choices, oneByOne, key }: ShareRequest & { readonly key: Buffer },
): TierResult | string {
  if (oneByOne !== null) {
    const asked = { time: oneByOne.time, gridDeg: choices.gridDeg, withWind: true };
    return shareTripsOneByOne(season, trips, { choices, key, k: oneByOne.k, asked });
  }
  const sums = shareCells(season, trips, { choices, key });
  return sums.content.rows.length > 0 ? sums : nothingToShow(trips, sums, choices);
}

function nothingToShow(
  trips: readonly ShareTrip[],
  { hidden }: TierResult,
  { thresholds }: ShareChoices,
): string {
  const all = plural(trips.length, 'trip');
  if (hidden.unplaced === trips.length) return noPlaceRefusal(trips.length);
  return (
    `No row can be shown: of ${all}, no month or quarter has ${plural(thresholds.minTrips, 'trip')} ` +
    `by ${plural(thresholds.minVessels, 'vessel')} in one 5 degree cell. Share a longer stretch by ` +
    'quarter (share: {period: quarter} in season.yaml), or more boats together.'
  );
}

function sharedPackage(
  tier: TierResult,
  choices: ShareChoices,
  { key, values }: { readonly key: Buffer; readonly values: IdentifyingValues },
): SharedPackage {
  const { content, basis, rates, shown, account } = tier;
  const vessels = [...new Set(shown.map((trip) => pseudonym(key, 'vessel', trip.vessel)))].sort();
  const isAssumed = shown.some((trip) => trip.isAssumed);
  const { texts, positions, dates, minutes } = values;
  const valuesLookedFor = texts.length + 2 * positions.length + dates.size + minutes.size;
  return { choices, content, basis, rates, vessels, account, isAssumed, valuesLookedFor };
}
