import { MethodsComparisons } from './methods-comparisons.tsx';
import { MethodsIntervals } from './methods-intervals.tsx';
import { MethodsSources } from './methods-sources.tsx';
import { MethodsTime } from './methods-time.tsx';
import { MethodsWords } from './methods-words.tsx';
import type { PageContent } from './page-content.ts';
import type { ReportContext } from './report-context.ts';
import { MethodsMoney } from './wear-methods.tsx';

/** What every number of the report means, how it is worked out, and where that comes from. */
export function methodsPage(context: ReportContext): PageContent {
  return {
    content: (
      <>
        <MethodsWords />
        <MethodsIntervals context={context} />
        <MethodsComparisons />
        <MethodsMoney />
        <MethodsTime />
        <MethodsSources />
      </>
    ),
    files: [],
  };
}
