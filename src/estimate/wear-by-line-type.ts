import type { Estimate } from '../base/estimate.ts';
import { groupBy } from '../base/group-by.ts';
import { plural } from '../base/words.ts';
import { factorWords } from '../tally/factor-words.ts';
import { factorOf } from '../tally/factors.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import { type WearBand, type WearFigures, wearBands, wearFigurer } from './wear-bands.ts';
import { type FirstBreaks, firstBreaks } from './wear-first-break.ts';
import { type NoWearLaw, type WearLaw, wearLaw } from './wear-power-law.ts';
import { cutsLives, type WearFilter, type WearRecords, wearRecords } from './wear-records.ts';
import { AGE_UNITS, type SpoolLife, spoolLives } from './wear-spools.ts';
import { WEAR_OUTCOMES, type WearOutcome, wearTrend } from './wear-trend.ts';

/** All that a log tells of the wear of one line type. */
export interface LineWear extends WearFigures {
  readonly lineType: string;
  /** Spools that were fished. */
  readonly spools: readonly SpoolLife[];
  /** Fights a rod has on an average trip; null where no trip or no fight is known. */
  readonly fightsPerTrip: number | null;
  readonly bands: readonly WearBand[];
  readonly trends: Readonly<Record<WearOutcome, Estimate>>;
  readonly law: WearLaw | NoWearLaw;
}

/** The wear of all line types of a log. */
export interface SeasonWear {
  readonly lines: readonly LineWear[];
  /** First breaks by fights, by trips, by line-hours. */
  readonly firstBreaks: readonly FirstBreaks[];
  /** Why nothing can be said of wear; null where something can. */
  readonly refused: string | null;
  /** What the reader must know of the figures, in sentences. */
  readonly notes: readonly string[];
}

export interface WearRequest extends WearFilter {
  readonly level: number;
  readonly seed: number;
}

/** Wear by line type, each in the order of the settings; all figures with trips as clusters. */
export function wearByLineType(season: TidySeason, request: WearRequest): SeasonWear {
  const refused = whyNoWear(season, request);
  if (refused !== null) return { lines: [], firstBreaks: [], refused, notes: [] };
  const records = wearRecords(season, request);
  if (records.bites.length === 0 && records.soaks.length === 0) {
    return { lines: [], firstBreaks: [], refused: NOTHING_ON_KNOWN_LINE, notes: [] };
  }
  const lives = spoolLives(season, records, request);
  const order = factorOf('line_type').order(season.log.settings);
  const livesOf = groupBy(lives, ({ spool }) => spool.line_type);
  const lineTypes = [...livesOf.keys()].sort(order);
  const figuresOf = wearFigurer(records, request.level);
  const inOrder = new Map(lineTypes.map((lineType) => [lineType, livesOf.get(lineType) ?? []]));
  return {
    lines: lineTypes.map((lineType) => lineWear(lineType, records, { request, lives, figuresOf })),
    firstBreaks: AGE_UNITS.map((unit) => firstBreaks(inOrder, unit, request.level)),
    refused: null,
    notes: notesOn(records, lives),
  };
}

/** The wear of one line type. */
function lineWear(
  lineType: string,
  records: WearRecords,
  {
    request,
    lives,
    figuresOf,
  }: {
    readonly request: WearRequest;
    readonly lives: readonly SpoolLife[];
    readonly figuresOf: ReturnType<typeof wearFigurer>;
  },
): LineWear {
  const bites = records.bites.filter(({ spool }) => spool.line_type === lineType);
  const soaks = records.soaks.filter(({ spool }) => spool.line_type === lineType);
  const figures = figuresOf({ bites, soaks });
  const rodTrips = new Set(
    [...bites, ...soaks].map(({ spool, trip }) => `${spool.line} ${trip.trip_id}`),
  ).size;
  const trendOf = (outcome: WearOutcome) => wearTrend(bites, outcome, request.level);
  return {
    lineType,
    ...figures,
    spools: lives.filter(({ spool }) => spool.line_type === lineType),
    fightsPerTrip: rodTrips === 0 || figures.fights === 0 ? null : figures.fights / rodTrips,
    bands: wearBands({ bites, soaks }, figuresOf),
    trends: Object.fromEntries(
      Object.keys(WEAR_OUTCOMES).map((name) => [name, trendOf(name as WearOutcome)]),
    ) as Record<WearOutcome, Estimate>,
    law: wearLaw(bites, request),
  };
}

const NOTHING_ON_KNOWN_LINE =
  'No soak or bite is on a rod whose filling is logged. Write the rod in soaks.csv (or bites.csv) ' +
  'as it stands in spools.csv.';

/** Why nothing can be told at all; null where something can. */
function whyNoWear({ log, spools }: TidySeason, { only }: WearFilter): string | null {
  const cut = cutsLives(only).map(factorWords);
  if (cut.length > 0) {
    return (
      `A line wears over its whole life, which cannot be cut down to one ${cut.join(' or ')}. ` +
      'Line type, line class and rod can be asked for.'
    );
  }
  if (log.spools === null) {
    return 'When reels were filled is not recorded: log each filling in spools.csv (rod, date, line_type).';
  }
  return spools.all.length === 0 ? 'spools.csv holds no filling yet.' : null;
}

/** Below this share of fish on lines of known age, or lost in a known way, the reader is told. */
const ENOUGH_KNOWN = 0.95;

/** What the log leaves out, and which way that bends the figures. */
function notesOn({ fights, lost, soaks }: WearRecords, lives: readonly SpoolLife[]): string[] {
  const notes: string[] = [];
  if (fights.known < ENOUGH_KNOWN * fights.all) {
    notes.push(
      `Of ${plural(fights.all, 'fight')}, ${fights.known} were on a line of known age; the others ` +
        'have no rod, or no filling before them, so ages and breaks are counted too low.',
    );
  }
  if (lost.known < ENOUGH_KNOWN * lost.all) {
    notes.push(
      `How it was lost (lost_to) is known of ${lost.known} of ${plural(lost.all, 'lost fish', 'lost fish')}, ` +
        'so breaks are counted too low.',
    );
  }
  if (soaks.length === 0) {
    notes.push(
      'Without soaks.csv a rod’s trips are those on which it had a bite, and its line-hours are not known.',
    );
  }
  const cut = lives.filter((life) => !life.isWhole).length;
  if (cut > 0) {
    notes.push(
      `${plural(cut, 'spool')} fished before the dates asked for and left out of the first-break curves.`,
    );
  }
  return notes;
}
