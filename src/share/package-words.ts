import { plural } from '../base/words.ts';
import { GEAR_CODES } from './gear-codes.ts';
import { noiseVariance } from './geometric-noise.ts';
import type { NoiseChoice } from './share-options.ts';
import type { SharedPackage } from './shared-package.ts';

/** Title of every package: it tells no boat, no place and no season. */
export const PACKAGE_TITLE = 'Catch and effort of live-bait fishing';

/** What the owner of the only boat says by asking for it; stands in the package. */
export const CONSENT_WORDS =
  'One vessel fished everything in this package, so no row of it can reach the usual three vessels. ' +
  'The owner of that vessel agreed to its release all the same.';

/** How the figures came about, for whoever has only the package. */
export function methodWords(shared: SharedPackage): string {
  const { choices, basis, isAssumed, content } = shared;
  const { gear, noise } = choices;
  const rows =
    content.tier === 'cells'
      ? 'One row of the effort table is all fishing by one gear in one grid cell in one period. ' +
        'Where a cell held too little to be shown, the larger cell round it was given instead; where ' +
        'that held too little as well, it was left out.'
      : 'One row of the trips table is one trip under a pseudonym. Every trip is alike in time, ' +
        'cell and wind to several others.';
  return [
    `Logged on board line by line and summed by linehours. ${rows}`,
    `Gear: ${gear}, ${GEAR_CODES[gear]}.`,
    EFFORT_WORDS[basis],
    ...(isAssumed ? ['Some line-hours are hours fished times lines fished.'] : []),
    'Bites are missed, or hooked; hooked fish are lost, released or kept. Species codes MZZ and BIL ' +
      'are fish that the log does not tell more closely.',
    'Grid cells are named by their corner nearest 0, 0; a point on a line belongs to the cell nearer ' +
      '0, 0.',
    ...(noise === null ? [] : [noiseWords(noise)]),
    'Catch per line-hour is the success of these boats. It does not count the fish in the sea.',
    ...(choices.licence === null ? ['No licence was given: ask before any use.'] : []),
  ].join(' ');
}

const EFFORT_WORDS = {
  'line-hours':
    'Effort is hours of one line in the water, less the time a fish was on it. Trips without it are not in the rows.',
  hours: 'Effort is hours of a boat fishing. Trips without it are not in the rows.',
  trips: 'Effort is trips: hours were not recorded.',
} as const;

/** Standard deviation of the noise on each count, in bites, to two digits. */
export function noiseSpread({ epsilon, clip }: NoiseChoice): number {
  return Number(Math.sqrt(noiseVariance({ epsilon, sensitivity: clip })).toPrecision(2));
}

function noiseWords(noise: NoiseChoice): string {
  const { epsilon, clip } = noise;
  return (
    `Each count of bites carries two-sided geometric noise of epsilon ${epsilon} for the whole of ` +
    `one trip, whose bites were cut to ${clip} at most; the noise on a count has a standard ` +
    `deviation of ${noiseSpread(noise)}. Counts below zero are given as zero, so small counts, and ` +
    'bites, hooked, kept, released and lost as sums over species, read too high. Trips, vessels and hours carry none. No totals and no rates are given.'
  );
}

/** The thresholds in a sentence. */
export function thresholdWords({ choices, account }: SharedPackage): string {
  const { thresholds, consent } = choices;
  const { minTrips, minVessels } = thresholds;
  const { classes } = account;
  const what =
    classes === null
      ? `Every figure is of ${plural(minTrips, 'trip')} or more`
      : `Every trip is one of ${classes.k} or more alike`;
  if (consent) return `${what}. ${CONSENT_WORDS}`;
  const low = minVessels < USUAL_VESSELS ? ', fewer than the usual three' : '';
  return `${what} by ${plural(minVessels, 'vessel')} or more${low}.`;
}

/** Source: WCPFC Rules and Procedures for data, para. 9; agency practice elsewhere. */
export const USUAL_VESSELS = 3;

/** What the rows hold, in a few words: `9 rows, 150 trips of 1 vessel`, `136 trips of 1 vessel`. */
export function rowsWords({ content, account }: SharedPackage): string {
  const trips = `${plural(account.trips, 'trip')} of ${plural(account.vessels, 'vessel')}`;
  return content.tier === 'cells' ? `${plural(content.rows.length, 'row')}, ${trips}` : trips;
}
