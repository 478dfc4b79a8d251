import { join } from 'node:path';
import { listWords, plural, printable } from '../base/words.ts';
import { noiseSpread, rowsWords, thresholdWords } from '../share/package-words.ts';
import { PRIVATE_FOLDER } from '../share/private-folder.ts';
import type { NoiseChoice } from '../share/share-options.ts';
import type { ShareOutcome } from '../share/share-season.ts';
import { speciesCode } from '../share/species-codes.ts';
import type { Hidden } from '../share/tier-result.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import { textTable } from '../write/text-table.ts';
import type { Effects } from './effects.ts';

type Written = Extract<ShareOutcome, { readonly kind: 'written' }>;

/** What was written, what was not, and what the owner alone is told. */
export function shareText(
  outcome: ShareOutcome,
  told: {
    readonly season: TidySeason;
    readonly out: string;
    readonly colours: Effects['colours'];
  },
): string {
  if (outcome.kind === 'refused') return `${outcome.reason}\n`;
  const { shared, files, release } = outcome;
  const lines = [
    told.colours.bold(`Package ${release}: ${rowsWords(shared)}.`),
    `${hiddenWords(outcome.hidden)} ${thresholdWords(shared)}`,
    `${plural(shared.valuesLookedFor, 'identifying value')} of the log were looked for in ${plural(files.length, 'file')}: none found.`,
    ...hiddenLines(outcome.hidden),
    ...remarks(outcome, told.season),
    `Look it through before you hand it on: ${told.colours.bold(join(told.out, 'disclosure.html'))}`,
  ];
  return `${lines.join('\n')}\n`;
}

/** How many trips are in no row; the package itself may not always say. */
function hiddenWords({ trips }: Hidden): string {
  if (trips === 0) return 'Every trip asked for is in the rows.';
  return `${plural(trips, 'trip')} ${trips === 1 ? 'is' : 'are'} not in the rows.`;
}

function hiddenLines(hidden: Hidden): string[] {
  const { squares, givenUp, unplaced, withoutEffort, totalsWithheld } = hidden;
  const lines: string[] = [];
  if (unplaced > 0)
    lines.push(`${plural(unplaced, 'trip')} without a position (lat, lon) left out.`);
  if (withoutEffort > 0) {
    lines.push(`${plural(withoutEffort, 'trip')} without the effort the others have left out.`);
  }
  if (totalsWithheld > 0) {
    lines.push(
      `${plural(totalsWithheld, 'total')} withheld, which would give away what was left out.`,
    );
  }
  return [
    ...lines,
    ...squareLines('Left out for being too small', squares),
    ...squareLines('Large enough, but given up so that a total may stand', givenUp),
  ];
}

function squareLines(head: string, squares: Hidden['squares']): string[] {
  if (squares.length === 0) return [];
  const table = textTable(
    [
      { head: 'period', align: 'left' },
      { head: 'cell', align: 'left' },
      { head: 'trips', align: 'right' },
      { head: 'vessels', align: 'right' },
    ],
    squares.map((s) => [s.period, s.cell, String(s.trips), String(s.vessels)]),
  );
  return [`${head} (for your eyes; not in the package):`, table];
}

function remarks({ shared, scan, owner }: Written, season: TidySeason): string[] {
  const { choices, account } = shared;
  const lines = ownerLines(owner);
  if (choices.noise !== null) lines.push(noiseLine(choices.noise));
  if (choices.licence === null) {
    lines.push('No licence was chosen: say how it may be used with --licence, e.g. CC-BY-4.0.');
  }
  if (account.classes?.isCoarser === true) {
    const { time, gridDeg, withWind } = account.classes.detail;
    const wind = withWind ? 'with' : 'without';
    lines.push(`Told more coarsely than asked: by ${time}, ${gridDeg} degree cell, ${wind} wind.`);
  }
  const loose = looseSpecies(season);
  if (loose.length > 0) {
    lines.push(
      `No code is set for ${listWords(loose, 5)}; they left as fish of a kind not told. Set them in ` +
        'season.yaml, e.g. species: {wahoo: {code: WAH}}.',
    );
  }
  if (scan.tooShort > 0) {
    lines.push(
      `${plural(scan.tooShort, 'single letter or short number', 'single letters and short numbers')} ` +
        'of the log cannot be told from counts; no column of the package holds an id or a name.',
    );
  }
  if (scan.ownWords.length > 0) {
    const names = scan.ownWords.map((value) => `"${printable(value.text)}"`);
    lines.push(`Also words of every package, so not told apart: ${listWords(names, 5)}.`);
  }
  return lines;
}

function ownerLines({ isFirst, vessels, undone, folderHits }: Written['owner']): string[] {
  const boats = vessels.map(({ name, trips }) => `${printable(name)} (${plural(trips, 'trip')})`);
  const stay = `Key and ledger stay in ${PRIVATE_FOLDER} in the log folder; keep it, and never hand it on.`;
  const made =
    ' Both were made just now: what left before from another copy of this log is not held against it.';
  return [
    ...(vessels.length > 1
      ? [`Counted as different boats: ${listWords(boats)}. One boat spelt two ways counts twice.`]
      : []),
    ...(undone.length > 0
      ? [
          `Package ${listWords(undone.map(String))} holds the same trips, one with noise and one ` +
            'without: whoever has both sees the exact counts.',
        ]
      : []),
    ...folderHits
      .slice(0, 1)
      .map(
        ({ found, what }) =>
          `The folder’s own name holds "${printable(found)}", ${what}; rename it before you hand it on.`,
      ),
    `${stay}${isFirst ? made : ''}`,
  ];
}

function noiseLine(noise: NoiseChoice): string {
  return (
    `The noise on each count has a standard deviation of ${noiseSpread(noise)} bites, and a count ` +
    'smaller than that says little. For less, raise --noise, lower --clip, or leave noise out: the ' +
    'thresholds hold without it.'
  );
}

/** Species of the log that no code stands for. */
function looseSpecies({ log }: TidySeason): string[] {
  const words = new Set(log.bites.map((bite) => bite.species).filter((word) => word !== null));
  const isLoose = (word: string) => speciesCode(word, log.settings.species).from === 'group';
  return [...words].filter(isLoose).sort().map(printable);
}

/** The same for machines; like the text, for the owner and not for the package. */
export function shareRecord(
  outcome: ShareOutcome,
  { season, out }: { readonly season: TidySeason; readonly out: string },
) {
  if (outcome.kind === 'refused') return { refused: outcome.reason, folder: null, written: [] };
  const { shared, files, release, hidden, scan, owner } = outcome;
  const { account, choices, content } = shared;
  return {
    refused: null,
    folder: out,
    written: files.map((file) => file.name),
    release,
    tier: content.tier,
    thresholds: {
      min_vessels: choices.thresholds.minVessels,
      min_trips: choices.thresholds.minTrips,
    },
    consent: choices.consent,
    gear: choices.gear,
    licence: choices.licence?.name ?? choices.licence?.path ?? null,
    noise: choices.noise,
    rows: content.rows.length,
    trips: account.trips,
    vessels: account.vessels,
    smallest_group: account.smallest,
    merged_rows: account.cells?.merged ?? null,
    totals: account.cells?.totals ?? null,
    totals_withheld: account.cells?.totalsWithheld ?? null,
    smallest_group_by_subtraction: account.cells?.smallestRest ?? null,
    anonymity: anonymityRecord(account),
    vessels_counted: owner.vessels,
    noise_undone_by_package: owner.undone,
    folder_name_holds: owner.folderHits.map((hit) => hit.found),
    left_out: {
      trips: hidden.trips,
      squares: hidden.squares,
      squares_given_up: hidden.givenUp,
      trips_without_position: hidden.unplaced,
      trips_without_effort: hidden.withoutEffort,
    },
    species_without_code: looseSpecies(season),
    scan: {
      values: shared.valuesLookedFor,
      too_common_to_tell: scan.ownWords.map((value) => value.text),
      too_short_to_tell: scan.tooShort,
      found: 0,
    },
  };
}

function anonymityRecord({ classes }: Written['shared']['account']) {
  if (classes === null) return null;
  const { k, l, isCoarser, detail } = classes;
  const { time, gridDeg, withWind } = detail;
  const told = { time, grid_deg: gridDeg, wind: withWind };
  return { classes: classes.classes, k, l, ...told, coarser_than_asked: isCoarser };
}
