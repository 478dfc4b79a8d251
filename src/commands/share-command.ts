import { UserError } from '../base/problem.ts';
import { vesselThreshold } from '../share/consent.ts';
import { DEFAULT_GEAR, GEAR_CODE_NAMES } from '../share/gear-codes.ts';
import { LICENCES, type Licence } from '../share/licences.ts';
import type { NoiseChoice, ShareChoices } from '../share/share-options.ts';
import { type ShareOutcome, type ShareRequest, shareSeason } from '../share/share-season.ts';
import { TRIP_TIMES } from '../share/trip-classes.ts';
import { DEFAULT_K } from '../share/trip-tier.ts';
import { wholePiece } from '../tally/effort-pieces.ts';
import { type FactorName, factorOf } from '../tally/factors.ts';
import { NOT_RECORDED } from '../tally/level-order.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import type { TidyTrip } from '../tidy/tidy-trips.ts';
import { documentHead, documentText } from './document.ts';
import { type Effects, type ExitCode, withProgress } from './effects.ts';
import { loadSeason } from './load-season.ts';
import { type CommonOptions, commonOptions, type GivenOptions, known } from './options.ts';
import { shareRecord, shareText } from './share-text.ts';

/** The options of `share`, as the command line gives them. */
export interface ShareOptions extends GivenOptions {
  readonly tier?: string;
  readonly k?: string;
  readonly time?: string;
  readonly consent?: boolean;
  readonly licence?: string;
  readonly gear?: string;
  readonly noise?: string;
  readonly clip?: string;
  readonly allow?: readonly string[];
}

/** `share`: an anonymised package with its disclosure report, or the reason why none may leave. */
export async function shareCommand(
  folder: string,
  given: ShareOptions,
  effects: Effects,
): Promise<ExitCode> {
  const options = commonOptions(given);
  const { out } = options;
  if (out === null) {
    throw new UserError('share needs a folder to write the package into: --out DIR.', 2);
  }
  const oneByOne = oneByOneOf(given);
  const season = await loadSeason(folder, options, effects);
  const request: ShareRequest = {
    logFolder: folder,
    out,
    choices: choicesOf(season, given),
    oneByOne,
    from: options.from,
    to: options.to,
    isKept: keptTrips(options.only),
    allowed: given.allow ?? [],
  };
  const outcome = await withProgress(quietly(effects, options), `Sharing ${folder}`, () =>
    shareSeason(season, request),
  );
  effects.out(outputText(outcome, { season, options, out, effects }));
  return outcome.kind === 'refused' ? 1 : 0;
}

function outputText(
  outcome: ShareOutcome,
  told: {
    readonly season: TidySeason;
    readonly options: CommonOptions;
    readonly out: string;
    readonly effects: Effects;
  },
): string {
  const { season, options, out, effects } = told;
  if (!options.json) return shareText(outcome, { season, out, colours: effects.colours });
  const head = documentHead('share', season, options);
  return documentText({ ...head, ...shareRecord(outcome, { season, out }) });
}

function quietly(effects: Effects, { quiet }: CommonOptions): Effects {
  return quiet ? { ...effects, isTerminal: false } : effects;
}

function choicesOf(season: TidySeason, given: ShareOptions): ShareChoices {
  const { grid_deg, min_trips, min_vessels, period } = season.log.settings.share;
  const consent = given.consent ?? false;
  const noise = noiseOf(given);
  if (noise !== null && given.tier === 'trips') {
    throw new UserError('--noise is for sums of trips; leave it out with --tier trips.', 2);
  }
  return {
    gridDeg: grid_deg,
    period,
    thresholds: { minVessels: vesselThreshold(min_vessels, consent), minTrips: min_trips },
    consent,
    gear: known('--gear', (given.gear ?? DEFAULT_GEAR).toUpperCase(), GEAR_CODE_NAMES),
    licence: given.licence === undefined ? null : licenceOf(given.licence),
    noise,
  };
}

function oneByOneOf(given: ShareOptions): ShareRequest['oneByOne'] {
  const tier = known('--tier', given.tier ?? 'cells', ['cells', 'trips'] as const);
  const k = Number(given.k ?? DEFAULT_K);
  if (!Number.isInteger(k) || k < 2) {
    throw new UserError(`--k "${given.k}" must be a whole number of 2 or more, such as 5.`, 2);
  }
  const time = known('--time', given.time ?? 'month', TRIP_TIMES);
  return tier === 'cells' ? null : { k, time };
}

function licenceOf(text: string): Licence {
  const names = Object.keys(LICENCES);
  const named = names.find((name) => name.toLowerCase() === text.toLowerCase());
  const licence = LICENCES[named ?? ''];
  if (licence !== undefined) return licence;
  if (/^https?:\/\/\S+$/i.test(text)) return { path: text };
  throw new UserError(
    `--licence "${text}" is not known. It takes: ${names.join(', ')}; or the address of your own ` +
      'terms, beginning with https://.',
    2,
  );
}

const DEFAULT_CLIP = 20;

function noiseOf({ noise, clip }: ShareOptions): NoiseChoice | null {
  if (noise === undefined) {
    if (clip === undefined) return null;
    throw new UserError('--clip goes with --noise: say how much noise, such as --noise 1.', 2);
  }
  const epsilon = Number(noise);
  const most = Number(clip ?? DEFAULT_CLIP);
  if (!(epsilon > 0 && epsilon <= 20)) {
    throw new UserError(
      `--noise "${noise}" must be above 0 and at most 20; smaller is noisier.`,
      2,
    );
  }
  if (!Number.isInteger(most) || most < 1) {
    throw new UserError(`--clip "${clip}" must be a whole number of bites, 1 or more.`, 2);
  }
  return { epsilon, clip: most };
}

/** Whole trips leave or stay: only what is one for a whole trip can choose among them. */
function keptTrips(only: CommonOptions['only']): (trip: TidyTrip) => boolean {
  const filters = Object.entries(only) as [FactorName, readonly string[]][];
  for (const [name] of filters) {
    if (factorOf(name).scope === 'trip') continue;
    throw new UserError(
      `--only ${name}: share takes whole trips; ${name} differs within one. Leave it out, or choose ` +
        'by vessel, month, week, area or trip_kind.',
      2,
    );
  }
  return (trip) =>
    filters.every(([name, kept]) => {
      const unit = { trip, soak: null, position: null, lineHours: 0, start: null, end: null };
      return kept.includes(String(factorOf(name).ofEffort(wholePiece(unit)) ?? NOT_RECORDED));
    });
}
