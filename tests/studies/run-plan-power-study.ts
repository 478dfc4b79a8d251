import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { ComparisonPlan } from '../../src/decide/plan-answer.ts';
import { planPower } from '../../src/estimate/plan-power.ts';
import { Random } from '../../src/stats/random.ts';
import { planFrom, powerMet } from './plan-power-study.ts';
import { type PlanWorld, truth } from './plan-power-world.ts';

// npx tsx tests/studies/run-plan-power-study.ts: draws everything again and writes plan-power-study.md.

const SEED = 52_001;
const RUNS = 3000;
const LOG_TRIPS = 6000;
const SHORT_LOGS = 100;

const share = {
  design: 'sides',
  kind: 'share',
  daySpread: 0.5,
  sideSpread: 0,
  known: false,
} as const;
const rate = { design: 'sides', kind: 'rate', daySpread: 0, known: false, bites: 0 } as const;
const WORLDS: readonly PlanWorld[] = [
  {
    ...share,
    base: 0.6,
    difference: 0.1,
    bites: 12,
    dayShape: Number.POSITIVE_INFINITY,
    daySpread: 0,
  },
  { ...share, base: 0.6, difference: 0.1, bites: 12, dayShape: 1.3 },
  { ...share, base: 0.6, difference: 0.1, bites: 12, dayShape: 1.3, known: true },
  { ...share, base: 0.87, difference: 0.05, bites: 15, dayShape: 1.3 },
  {
    ...share,
    base: 0.87,
    difference: 0.1,
    bites: 6,
    dayShape: 1.3,
    daySpread: 0.8,
    sideSpread: 0.4,
  },
  { ...share, base: 0.5, difference: 0.15, bites: 4, dayShape: 2, daySpread: 1 },
  { ...share, base: 0.2, difference: 0.1, bites: 20, dayShape: 2, sideSpread: 0.5 },
  { ...share, base: 0.6, difference: 0.3, bites: 8, dayShape: 0.7 },
  { ...share, design: 'days', base: 0.6, difference: 0.1, bites: 20, dayShape: 2 },
  {
    ...share,
    design: 'days',
    base: 0.85,
    difference: 0.1,
    bites: 15,
    dayShape: 1.3,
    daySpread: 0.8,
  },
  { ...rate, base: 0.4, difference: 0.3, dayShape: 1.3, sideSpread: 0 },
  { ...rate, base: 0.4, difference: 0.3, dayShape: 3, sideSpread: 4 },
  { ...rate, design: 'days', base: 0.4, difference: 0.5, dayShape: 3, sideSpread: 0 },
];

const random = new Random(SEED);
const percent = (value: number) => (100 * value).toFixed(1);
const dash = (value: number) => (value === 0 ? 'none' : String(value));

function about(world: PlanWorld): string[] {
  const { design, kind, base, bites, dayShape, daySpread, sideSpread, known } = world;
  const days = Number.isFinite(dayShape) ? String(dayShape) : 'alike';
  const [a, b] = truth(world).map((value) =>
    Number((kind === 'share' ? 100 * value : value).toFixed(2)),
  );
  const what = kind === 'share' ? `${a} % against ${b} %` : `${a} against ${b} a line-hour`;
  const log = known ? 'both levels' : 'neither level';
  const many = kind === 'share' ? String(bites) : String(20 * base);
  return [design, what, many, days, dash(daySpread), dash(sideSpread), log];
}

function shortLogs(world: PlanWorld, plan: ComparisonPlan, logTrips: number): string {
  const needed: number[] = [];
  let power = 0;
  for (let at = 0; at < SHORT_LOGS; at++) {
    const short = planFrom(world, logTrips, random);
    const trips = short.needed ?? 10_000;
    needed.push(trips);
    power += planPower(plan.basis, plan.target, trips) / SHORT_LOGS;
  }
  needed.sort((a, b) => a - b);
  const at = (part: number) => needed[Math.floor(part * SHORT_LOGS)];
  return `${at(0.1)} to ${at(0.9)}, ${percent(power)}`;
}

const met: string[] = [];
const short: string[] = [];
for (const [index, world] of WORLDS.entries()) {
  const plan = planFrom(world, LOG_TRIPS, random);
  const needed = plan.needed ?? 0;
  const half = 2 * Math.ceil(needed / 4);
  const cells = [half, needed].flatMap((trips) => {
    const got = powerMet(world, plan, { trips, runs: RUNS, random });
    return [`${trips}`, percent(got.promised), percent(got.met)];
  });
  const effect = plan.basis.spread.designEffect.toFixed(2);
  const row = `| ${[index + 1, ...about(world), effect, ...cells].join(' | ')} |`;
  console.log(row);
  met.push(row);
  if (index % 3 !== 1) continue;
  const lines = [20, 40, 120].map((logTrips) => shortLogs(world, plan, logTrips));
  const line = `| ${[index + 1, needed, ...lines].join(' | ')} |`;
  console.log(line);
  short.push(line);
}

const error = percent(Math.sqrt((0.8 * 0.2) / RUNS));
const text = `# Is the promised power met? Simulated seasons fished by the plan

Made by \`npx tsx tests/studies/run-plan-power-study.ts\` on ${new Date().toISOString().slice(0, 10)}, seed ${SEED}.

Each row is a boat whose truth is known. A log of ${LOG_TRIPS} ordinary trips is drawn and \`plan\` makes a plan from it
(power 80 %, interval 95 %); then ${RUNS} seasons of that many trips, and of half as many, are drawn with the true
difference and read through the same-day lens. \`met\` is how often its interval left out "no difference" on the right
side; one Monte-Carlo standard error is ${error} points.

\`days in bites\`: shape of the gamma that a day's bites are multiplied by. \`days\`, \`sides\`: standard deviation of the
logit of the share hooked between days, and between the sides of one day; in rows of a rate, \`sides\` is the shape of
a gamma that the bites of one side come in bursts with.

| row | design | truth | bites a trip | days in bites | days | sides | log has | design effect | trips | promised % | met % | trips | promised % | met % |
| --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |
${met.join('\n')}

## What a short log does to the promise

${SHORT_LOGS} logs of each length for some of the rows. Nine plans in ten ask for at least the first number of trips and nine
in ten for at most the second; then the true power of those plans on average (by the plan of the long log, which the
table above bears out).

| row | trips, long log | log of 20 trips | log of 40 trips | log of 120 trips |
| --- | --- | --- | --- | --- |
${short.join('\n')}
`;
writeFileSync(join(import.meta.dirname, 'plan-power-study.md'), text);
