import { createHash } from 'node:crypto';
import { renderToStaticMarkup } from 'preact-render-to-string';
import { levelWords, printable } from '../base/words.ts';
import type { ComparisonPlan } from '../decide/plan-answer.ts';
import type { PlannedTrip } from '../decide/plan-schedule.ts';
import { planSentence, scheduleSentence } from '../decide/plan-sentence.ts';
import { factorWords } from '../tally/factor-words.ts';
import { LINE_CAUTION } from './cautions.ts';
import type { TextFile } from './new-files.ts';

/** The sheet for the boat. */
export const SHEET_FILE = 'plan.html';

/** The schedule as a page to print, with a box to tick for every line of every trip. */
export function planSheet(plan: ComparisonPlan, season: string): TextFile {
  const page = <Sheet plan={plan} season={printable(season)} />;
  return { name: SHEET_FILE, text: `<!doctype html>\n${renderToStaticMarkup(page)}\n` };
}

interface SheetProps {
  readonly plan: ComparisonPlan;
  readonly season: string;
}

function Sheet({ plan, season }: SheetProps) {
  const [a, b] = plan.levels.map((level) => printable(levelWords(level)));
  const title = `Test plan: ${factorWords(plan.factor)}, ${a} against ${b}`;
  const ofSchedule = scheduleSentence(plan);
  return (
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta http-equiv="Content-Security-Policy" content={SHEET_POLICY} />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta name="referrer" content="no-referrer" />
        <title>{title}</title>
        <style dangerouslySetInnerHTML={{ __html: SHEET_STYLE }} />
      </head>
      <body>
        <main>
          <p class="season">
            <bdi>{season}</bdi>
          </p>
          <h1>{title}</h1>
          <p class="key">
            <b>A</b> = <bdi>{a}</bdi> <span class="gap" /> <b>B</b> = <bdi>{b}</bdi>
          </p>
          <p>{printable(planSentence(plan))}</p>
          {ofSchedule !== null && <p>{printable(ofSchedule)}</p>}
          <Rules plan={plan} />
          {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reachable by key */}
          <section class="scroll" aria-label="Schedule" tabIndex={0}>
            <Schedule plan={plan} />
          </section>
          <p class="seed">
            Drawn by lot with seed {plan.seed}; the same seed draws the same schedule.
          </p>
        </main>
      </body>
    </html>
  );
}

function Rules({ plan }: { readonly plan: ComparisonPlan }) {
  const alike =
    plan.basis.design === 'sides'
      ? `Fish everything but the ${factorWords(plan.factor)} alike on both sides.`
      : 'Fish both in the same way, with the same lines and baits.';
  const rules = [
    'Take the trips in this order, whatever the day looks like: the lot must decide, not the weather.',
    alike,
    'Tick what was fished as planned. Write down what was fished instead; never change the plan to fit.',
    'Log every bite as always, with its position. Copy the date of each trip into schedule.csv.',
    'The local rules for gear, hooks, baits and areas come first, and so does safety: leave out any line of the plan that they do not allow.',
    LINE_CAUTION,
  ];
  return (
    <ul>
      {rules.map((rule) => (
        <li key={rule}>{rule}</li>
      ))}
    </ul>
  );
}

/** A column of boxes: the lines of one place and side, which fish the same. */
interface BoxColumn {
  readonly name: string;
  /** The position whose level stands for the column; null where the whole trip is meant. */
  readonly position: string | null;
}

/** Columns under one head. */
interface BoxGroup {
  readonly place: string;
  readonly columns: readonly BoxColumn[];
}

function groupsOf({ places, basis, factor }: ComparisonPlan): readonly BoxGroup[] {
  if (basis.design === 'days')
    return [{ place: factorWords(factor), columns: [{ name: 'whole trip', position: null }] }];
  return places.map(({ reach, port, starboard }) => ({
    place: reach ?? 'all lines',
    columns: [
      { name: 'port', position: port[0] ?? null },
      { name: 'stbd', position: starboard[0] ?? null },
    ],
  }));
}

function Schedule({ plan }: { readonly plan: ComparisonPlan }) {
  const groups = groupsOf(plan);
  const columns = groups.flatMap((group) => group.columns);
  const [a] = plan.levels;
  return (
    <table>
      <caption>
        What each line fishes on each trip. A thick rule ends a block: if you must stop early, stop
        after one.
      </caption>
      <Heads groups={groups} />
      <tbody>
        {plan.schedule.map((trip, at) => (
          <tr class={endsBlock(plan.schedule, at) ? 'end' : undefined} key={trip.tripNumber}>
            <th scope="row">{trip.tripNumber}</th>
            <td />
            {columns.map(({ position }) => (
              <td class="box" key={position}>
                <b>{levelAt(trip, position) === a ? 'A' : 'B'}</b> <i aria-hidden="true" />
              </td>
            ))}
            <td />
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function Heads({ groups }: { readonly groups: readonly BoxGroup[] }) {
  return (
    <thead>
      <tr>
        <th scope="col" rowSpan={2}>
          trip
        </th>
        <th scope="col" rowSpan={2} class="date">
          date
        </th>
        {groups.map(({ place, columns }) => (
          <th scope="colgroup" colSpan={columns.length} key={place}>
            {place}
          </th>
        ))}
        <th scope="col" rowSpan={2} class="instead">
          fished instead
        </th>
      </tr>
      <tr>
        {groups.flatMap(({ place, columns }) =>
          columns.map(({ name }) => (
            <th scope="col" key={place + name}>
              {name}
            </th>
          )),
        )}
      </tr>
    </thead>
  );
}

function levelAt({ lines }: PlannedTrip, position: string | null): string | undefined {
  return lines.find((line) => line.position === position)?.level;
}

function endsBlock(schedule: readonly PlannedTrip[], at: number): boolean {
  return schedule[at + 1]?.block !== schedule[at]?.block;
}

/** No size is named for the page, so that it prints on A4 and on Letter alike. */
const SHEET_STYLE = `
:root{color-scheme:light}
@page{margin:12mm}
body{font:10.5pt/1.35 system-ui,sans-serif;margin:0 auto;max-width:186mm;padding:4mm;color:#000;background:#fff;overflow-wrap:anywhere}
h1{font-size:16pt;line-height:1.2;margin:0 0 2mm}
p,ul{margin:1.5mm 0}
ul{padding-left:5mm}
.season{margin:0}
.key{font-size:13pt;border:0.4mm solid #000;padding:1.5mm 3mm;width:fit-content}
.gap{display:inline-block;width:8mm}
.seed{font-size:9pt}
table{border-collapse:collapse;width:100%;margin-top:3mm}
caption{text-align:left;padding-bottom:1.5mm;font-size:9.5pt}
th,td{border:0.3mm solid #555;padding:0.8mm 1mm;height:7mm;text-align:center;font-size:10pt}
thead th{font-size:8.5pt;font-weight:600;vertical-align:bottom}
th{overflow-wrap:normal}
thead{display:table-header-group}
tr{break-inside:avoid}
.end>*{border-bottom:0.9mm solid #000}
.date{width:22mm}
.instead{width:38mm}
.box{white-space:nowrap}
i{display:inline-block;width:3.6mm;height:3.6mm;border:0.35mm solid #000;vertical-align:-0.5mm;margin-left:1mm}
@media print{body{padding:0;max-width:none}}
@media screen{.scroll{overflow-x:auto}.date,.instead{min-width:22mm}}
`.trim();

/** Its own style sheet by its hash, and nothing else from anywhere. */
const SHEET_POLICY = [
  "default-src 'none'",
  `style-src 'sha256-${createHash('sha256').update(SHEET_STYLE, 'utf8').digest('base64')}'`,
  "base-uri 'none'",
  "form-action 'none'",
].join('; ');
