import { formatCount, formatDecimal } from '../../base/format-number.ts';
import { levelWords, listWords, printable, sentenceCase } from '../../base/words.ts';
import type { LoadLine, LoadList } from '../../decide/load-list.ts';
import { LIVE_BAIT_CAUTION } from '../../decide/load-notes.ts';
import { shortWords } from '../../decide/load-sentence.ts';
import type { RodDue } from '../../decide/respool-due.ts';
import type { Substitute } from '../../decide/substitute-bait.ts';
import { type DataTable, tableView } from '../data-table.tsx';
import { ProseSection } from '../entry.tsx';
import { Running } from '../running.tsx';
import type { PageContent } from './page-content.ts';
import type { ReportContext } from './report-context.ts';
import { dueSentence } from './wear-due-entry.ts';

/** The dock sheet: one printed page for the crew, to be carried down to the boat. */
export function dockPage(context: ReportContext): PageContent {
  return {
    content: (
      <div class="dock">
        <Load context={context} />
        <RunWhere context={context} />
        <Testing context={context} />
        <Reels context={context} />
      </div>
    ),
    files: [],
  };
}

interface Part {
  readonly context: ReportContext;
}

/** A phone or a page has no room for more. */
const MOST_BAITS = 14;
const MOST_RODS = 12;

/** The shopping list, with boxes to tick. */
function Load({ context }: Part) {
  const { list } = context.stock();
  const lines = list.lines.filter(isLoaded).slice(0, MOST_BAITS);
  return (
    <ProseSection id="dock-load" heading="Load for the next trip">
      {list.refused !== null && <p>{printable(list.refused)}</p>}
      {list.refused === null && lines.length === 0 && (
        <p>Nothing: no bait was used often enough to say.</p>
      )}
      {lines.length > 0 && tableView(loadTable(list, lines))}
      {list.costs === null && list.refused === null && list.notes[0] !== undefined && (
        <p>{printable(list.notes[0])}</p>
      )}
      <p>{LIVE_BAIT_CAUTION}</p>
    </ProseSection>
  );
}

function isLoaded({ load, enough }: LoadLine): boolean {
  return load === null ? enough.length > 0 : load.load > 0;
}

function loadTable({ costs }: LoadList, lines: readonly LoadLine[]): DataTable<LoadLine> {
  const caption =
    costs === null
      ? 'Enough on 8 of 10 trips.'
      : 'How many, and how often that is too few. Tick off what is aboard.';
  return {
    id: 'dock-load-table',
    caption,
    columns: [
      {
        head: 'bait',
        kind: 'text',
        cell: ({ bait }) => levelWords(bait),
        csv: [],
      },
      { head: 'load', kind: 'number', cell: loadText, csv: [] },
      {
        head: 'runs short',
        kind: 'number',
        cell: ({ load }) => (load === null ? '2 in 10' : shortWords(load.shortProbability)),
        csv: [],
      },
      {
        head: 'used a trip',
        kind: 'number',
        cell: ({ meanUsed }) => (meanUsed === null ? '' : formatDecimal(meanUsed, 1)),
        csv: [],
      },
      { head: 'aboard', kind: 'text', cell: () => '☐', csv: [] },
    ],
    rows: lines,
  };
}

/** The load, or what is enough on 8 of 10 trips. */
function loadText({ load, enough, most }: LoadLine): string {
  if (load !== null) return formatCount(load.load);
  const baits = enough.find(({ chance }) => chance === 0.8)?.baits ?? null;
  return baits === null ? `over ${formatCount(most)}` : formatCount(baits);
}

/** Which bait where, and what the log is sure of in gear. */
function RunWhere({ context }: Part) {
  const { substitutes } = context.stock();
  const sure = context
    .answers()
    .filter(({ verdict, about }) => verdict === 'clear' && GEAR.includes(about));
  return (
    <ProseSection id="dock-run" heading="Run where">
      {substitutes.length === 0 && sure.length === 0 && (
        <p>The log is not yet sure of any bait on any line.</p>
      )}
      {substitutes.length > 0 && tableView(baitTable(substitutes))}
      {sure.length > 0 && (
        <ul>
          {sure.map(({ about, sentence }) => (
            <li key={about}>
              <Running text={`${about}: ${firstSentence(sentence)}`} />
            </li>
          ))}
        </ul>
      )}
    </ProseSection>
  );
}

const SURENESS: Readonly<Record<Substitute['sureness'], string>> = {
  best: 'the best',
  lead: 'too close to call',
  alike: 'cannot be told apart',
  only: 'the only one fished enough',
  none: 'not fished enough',
};

function baitTable(substitutes: readonly Substitute[]): DataTable<Substitute> {
  return {
    id: 'dock-run-table',
    caption:
      'Bait by reach, best first where the log can tell, else most fished first; not every bait is listed.',
    columns: [
      { head: 'reach', kind: 'text', cell: ({ reach }) => levelWords(reach), csv: [] },
      {
        head: 'bait',
        kind: 'text',
        cell: ({ baits }) => listWords(baits.slice(0, MOST_CHOICES).map(levelWords)),
        csv: [],
      },
      { head: 'how sure', kind: 'text', cell: ({ sureness }) => SURENESS[sureness], csv: [] },
    ],
    rows: substitutes,
  };
}

/** The finding without what it rests on, which stands on its own page. */
function firstSentence(text: string): string {
  return /^.*?[.](?= [A-Z]|$)/.exec(text)?.[0] ?? text;
}

const MOST_CHOICES = 3;
const GEAR: readonly string[] = ['Line', 'Hook', 'Leader'];

/** Reels that are due, with boxes to tick. */
function Reels({ context }: Part) {
  const advice = context.respool();
  const due = advice.rods.filter(({ isDue }) => isDue === true).slice(0, MOST_RODS);
  return (
    <ProseSection id="dock-reels" heading="Respool">
      <p>
        <Running text={sentenceCase(dueSentence(advice))} />
      </p>
      {due.length > 0 && (
        <ul>
          {due.map((rod) => (
            <li key={rod.rod}>☐ {dueWords(rod)}</li>
          ))}
        </ul>
      )}
      <p>
        This is about catch and cost, not about breaking strength: any line that feels rough or
        nicked goes, whatever its age.
      </p>
    </ProseSection>
  );
}

function dueWords({ rod, spool, why }: RodDue): string {
  return printable(`${rod}, ${levelWords(spool.line_type)}: ${why}`);
}

/** What is still open, and how to fish so that the log can tell. */
function Testing({ context }: Part) {
  const open = context
    .answers()
    .filter(
      ({ verdict, about }) => (verdict === 'open' || verdict === 'tied') && GEAR.includes(about),
    );
  return (
    <ProseSection id="dock-test" heading="Testing today">
      {open.length === 0 ? (
        <p>Nothing is open in line, hook or leader. Log every bite all the same.</p>
      ) : (
        <>
          <ul>
            {open.map(({ about, sentence }) => (
              <li key={about}>
                <Running text={`${about}: ${firstSentence(sentence)}`} />
              </li>
            ))}
          </ul>
          <p>
            Fish both on every trip, one on each side with the same bait at the same reach, and
            change sides from trip to trip. Log each line in and out, and each bite, missed ones
            too.
          </p>
        </>
      )}
    </ProseSection>
  );
}
