import { UserError } from '../base/problem.ts';
import { plural } from '../base/words.ts';
import type { ShareChoices } from './share-options.ts';
import type { ShareTrip } from './share-trip.ts';
import { vesselCount } from './thresholds.ts';

/**
 * The thresholds that hold, given what the owner said: with consent one vessel is enough, and only
 * then.
 * @throws UserError (exit 2) for a threshold of one vessel without consent.
 */
export function vesselThreshold(minVessels: number, consent: boolean): number {
  if (consent) return 1;
  if (minVessels > 1) return minVessels;
  throw new UserError(
    'min_vessels: 1 in the settings would show single boats. That is for the owner of a boat to say: ' +
      'share its log alone with --consent, or set min_vessels to 2 or more.',
    2,
  );
}

/**
 * Why the trips cannot leave at all, before anything is counted; null where they may be tried.
 * @throws UserError (exit 2) for the consent of one owner over the boats of several.
 */
export function consentRefusal(
  trips: readonly ShareTrip[],
  { consent, thresholds }: ShareChoices,
): string | null {
  if (trips.length === 0) return 'There is no trip to share in this part of the log.';
  const vessels = vesselCount(trips);
  if (consent && vessels > 1) {
    throw new UserError(
      `--consent is the word of one owner for one boat; these trips are of ${vessels}. ` +
        'Share one boat at a time with --only vessel=NAME, or leave --consent out.',
      2,
    );
  }
  if (vessels >= thresholds.minVessels) return null;
  const all = `${plural(trips.length, 'trip')} ${trips.length === 1 ? 'is' : 'are'}`;
  if (vessels > 1) {
    return (
      `${all} of ${vessels} vessels, and every row must hold ${thresholds.minVessels} or more, so ` +
      'no row can be shown. Put more boats’ logs together, or share each boat alone with ' +
      '--only vessel=NAME and its owner’s --consent.'
    );
  }
  return (
    `${all} of one vessel, and every row must hold ${thresholds.minVessels} or more: one boat’s own ` +
    'log can never reach that, however many trips it has. If you own the boat and agree to be the ' +
    'only one in a row, say so with --consent; the package will say it too. Or hand the log to ' +
    'somebody who puts several boats together.'
  );
}
