import { furtherHeadlines, type Headline } from '../../decide/headlines.ts';
import { Running } from '../running.tsx';
import type { ReportContext } from './report-context.ts';

const VERDICT_WORDS: Readonly<Record<Headline['verdict'], string>> = {
  clear: 'clear',
  alike: 'alike',
  open: 'open',
  tied: 'tied',
  ranked: 'ranked',
  advice: 'advice',
  thin: 'too thin',
};

/** The season's answers, one line each, with the word that says how far each can be trusted. */
export function AnswersSection({ context }: { readonly context: ReportContext }) {
  const { season, filter, level, seed } = context;
  const further = furtherHeadlines(season, { ...filter, level, seed });
  return (
    <section class="entry" id="answers" aria-labelledby="answers-question">
      <h2 id="answers-question">What did we learn, what is still open?</h2>
      <div class="body">
        <dl class="answers">
          {[...context.answers(), ...further].map(({ about, verdict, sentence }) => (
            <div key={about}>
              <dt>
                {about} <span class={`verdict ${verdict}`}>{VERDICT_WORDS[verdict]}</span>
              </dt>
              <dd>
                <Running text={sentence} />
              </dd>
            </div>
          ))}
        </dl>
        <p class="how">
          Clear: the interval leaves no room for "no difference". Alike: no difference that matters.
          Open: neither yet. Tied: never fished apart. Ranked: as logged, no verdict. Each verdict
          is for one reading at the season’s end. <a href="methods.html#verdicts">Method</a>
        </p>
      </div>
    </section>
  );
}
