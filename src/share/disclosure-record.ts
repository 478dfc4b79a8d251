import { CONSENT_WORDS, thresholdWords } from './package-words.ts';
import { columnFates } from './quasi-identifiers.ts';
import type { SharedPackage } from './shared-package.ts';

/**
 * The disclosure report for machines. It lies in the package, so it says only what may leave: which
 * squares are missing stands on the owner's terminal alone.
 *
 * @param fileNames every file of the package.
 */
export function disclosureRecord(shared: SharedPackage, fileNames: readonly string[]) {
  const { account, choices, content } = shared;
  const { cells, classes, leftOut, smallest } = account;
  return {
    schema: 'linehours/disclosure@1',
    tier: content.tier,
    rows: content.rows.length,
    trips: account.trips,
    vessels: account.vessels,
    thresholds: {
      min_vessels: choices.thresholds.minVessels,
      min_trips: choices.thresholds.minTrips,
      text: thresholdWords(shared),
    },
    consent: choices.consent ? CONSENT_WORDS : null,
    smallest_group: { trips: smallest.trips, vessels: smallest.vessels },
    left_out: {
      trips: leftOut.kind === 'trips' ? leftOut.trips : leftOut.kind === 'none' ? 0 : null,
      text: leftOutWords(shared),
    },
    merged_rows: cells?.merged ?? null,
    totals: cells === null ? null : { given: cells.totals, withheld: cells.totalsWithheld },
    smallest_group_by_subtraction: cells?.smallestRest ?? null,
    anonymity:
      classes === null
        ? null
        : {
            classes: classes.classes,
            k: classes.k,
            l: classes.l,
            time: classes.detail.time,
            grid_deg: classes.detail.gridDeg,
            wind: classes.detail.withWind,
          },
    noise: choices.noise,
    columns: columnFates(shared),
    scan: { values: shared.valuesLookedFor, files: fileNames, found: 0 },
  };
}

/** What is not in the rows, as far as it may be told. */
export function leftOutWords({ account, content }: SharedPackage): string {
  const { leftOut } = account;
  if (leftOut.kind === 'none') return 'Every trip asked for is in the rows.';
  if (leftOut.kind === 'untold') {
    return content.tier === 'cells'
      ? 'Some trips are not in the rows; how many is not told, as that could show a group too small.'
      : 'Some trips are not in the rows; how many is not told. Of those with a place and effort it is ' +
          'at most one in ten.';
  }
  return leftOut.trips === 1
    ? 'One trip is not in the rows.'
    : `${leftOut.trips} trips are not in the rows.`;
}
