import { entriesPage } from './entries-page.tsx';
import type { PageContent } from './page-content.ts';
import { BY_DROP_BACK, BY_FIGHT, byFactor, HOOK_PLACE, RELEASE_STATE } from './release-asked.ts';
import { releaseSharesEntry } from './release-shares-entry.ts';
import type { ReportContext } from './report-context.ts';

const HANDLING =
  'How fish are handled and released, and which hooks are allowed, is for the local regulations in force: check the current text.';
const NOT_SURVIVED =
  'Released is not survived: what became of a fish after it was let go, no log of the boat can tell.';
const ELSEWHERE =
  'For its order of size only, from another fishery: on live bait J hooks put up to twice as many hooks in bad places as circle hooks, worst at long drop-backs (Prince and others 2007). It says nothing about this boat.';
const AS_LOGGED =
  'As logged: bait, hook, drop-back and fish are not held equal here, and which fish had their hook place logged is the crew’s choice.';
const BOTH_WAYS =
  'As logged: long fights are big fish as well, and a fish in a bad way may be let go sooner or later for it.';

/** Release: where fish were hooked and how they went back, by hook, drop-back, bait and fight. */
export async function releasePage(context: ReportContext): Promise<PageContent> {
  const { season } = context;
  const entries = await Promise.all([
    releaseSharesEntry(context, {
      id: 'hooked-by-hook',
      question: 'Which hook size hooks them in the corner?',
      outcome: HOOK_PLACE,
      tellsWhole: true,
      by: byFactor('hook_size', { noun: 'hook size', preposition: 'on hooks of' }, season),
      asides: [HANDLING, AS_LOGGED],
    }),
    releaseSharesEntry(context, {
      id: 'hooked-by-drop-back',
      question: 'Does a longer drop-back hook them deeper?',
      outcome: HOOK_PLACE,
      tellsWhole: false,
      by: BY_DROP_BACK,
      asides: [ELSEWHERE],
    }),
    releaseSharesEntry(context, {
      id: 'hooked-by-bait',
      question: 'Does the bait change where they are hooked?',
      outcome: HOOK_PLACE,
      tellsWhole: false,
      by: byFactor('bait', { noun: 'bait', preposition: 'with' }, season),
      asides: [],
    }),
    releaseSharesEntry(context, {
      id: 'released-by-fight',
      question: 'Do fish go back worse after a long fight?',
      outcome: RELEASE_STATE,
      tellsWhole: true,
      by: BY_FIGHT,
      asides: [NOT_SURVIVED, BOTH_WAYS],
    }),
  ]);
  return entriesPage(entries);
}
