import type { FactorName } from '../../tally/factors.ts';
import { type ComparisonAsked, comparisonEntry } from './comparison-entry.ts';
import { crossEntry } from './cross-entry.ts';
import { entriesPage } from './entries-page.tsx';
import { type LevelQuestion, levelEntry } from './level-entry.ts';
import type { PageContent } from './page-content.ts';
import type { ReportContext } from './report-context.ts';
import { togetherEntries } from './together-entry.ts';
import { withinEntries } from './within-entry.ts';

const AS_LOGGED =
  'As logged: where, when and with which bait each was fished is not held equal here. ' +
  'Where the comparison above says open or tied, nothing follows from this picture.';

const QUESTIONS: readonly Omit<LevelQuestion, 'measures' | 'order' | 'caution'>[] = [
  { id: 'line-type', question: 'Which line hooks more of its bites?', factors: ['line_type'] },
  { id: 'line-class', question: 'Light line or heavy?', factors: ['line_class_lb'] },
  { id: 'hook-size', question: 'Which hook size?', factors: ['hook_size'] },
  { id: 'leader', question: 'Which leader?', factors: ['leader_lb'] },
];

const COMPARED: readonly ComparisonAsked[] = [
  { id: 'compare-line', factor: 'line_type', question: 'Does one line hook as many as the other?' },
  { id: 'compare-hook', factor: 'hook_size', question: 'Does one hook size hook more?' },
  { id: 'compare-leader', factor: 'leader_lb', question: 'Does a lighter leader hook more?' },
  { id: 'compare-class', factor: 'line_class_lb', question: 'Does a lighter line hook more?' },
];

/** A table each for line and hook: every further one is a further chance of a false difference. */
const WITHIN = [
  { id: 'within-line', factor: 'line_type' },
  { id: 'within-hook', factor: 'hook_size' },
] as const;

const MIXED_UP_WITH: readonly FactorName[] = ['reach', 'month', 'bait'];

const HOOK_MODEL = {
  question: { id: 'hook-model', question: 'Which hook model?', factors: ['hook_model'] },
  compared: {
    id: 'compare-hook-model',
    factor: 'hook_model',
    question: 'Does one hook hook more?',
  },
} as const;

/** Line, hook and leader: what was hooked on each, and where each was fished. */
export async function gearPage(context: ReportContext): Promise<PageContent> {
  // The one gear column that stands in soaks.csv alone; few logs keep it.
  const hasModel = context.season.bites.some((bite) => bite.hook_model !== null);
  const compared = hasModel ? [...COMPARED, HOOK_MODEL.compared] : COMPARED;
  const questions = hasModel ? [...QUESTIONS, HOOK_MODEL.question] : QUESTIONS;
  const entries = await Promise.all([
    ...compared.map((asked) => comparisonEntry(context, asked)),
    ...compared.flatMap(({ id, factor }) =>
      togetherEntries(context, { id: id.replace('compare', 'together'), factor }),
    ),
    ...WITHIN.flatMap((asked) => withinEntries(context, asked)),
    ...questions.map((asked) =>
      levelEntry(context, {
        ...asked,
        measures: ['hookup_rate', 'caught_rate', 'bite_to_boat', 'bites_per_line_hour'],
        order: 'natural',
        caution: AS_LOGGED,
      }),
    ),
    ...MIXED_UP_WITH.map((factor) =>
      crossEntry(context, {
        id: `line-type-by-${factor}`,
        question: QUESTION_OF[factor] ?? '',
        factors: ['line_type', factor],
      }),
    ),
  ]);
  return entriesPage(entries);
}

const QUESTION_OF: Readonly<Partial<Record<FactorName, string>>> = {
  reach: 'Where was each line fished?',
  month: 'When was each line fished?',
  bait: 'With which bait was each line fished?',
};
