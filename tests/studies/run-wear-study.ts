import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { type WearStudy, wearStudy } from './wear-study.ts';
import type { WearWorld } from './wear-world.ts';

// npx tsx tests/studies/run-wear-study.ts: draws the seasons again and writes wear-study.md.

const RUNS = 500;
const FIRST_SEED = 26_000;
const EVEN = Number.POSITIVE_INFINITY;
const BUSY = { trips: 120, rods: 8, fightsPerTrip: 1.6, spoolShape: EVEN, tripShape: EVEN };

const WORLDS: readonly { readonly name: string; readonly world: WearWorld }[] = [
  { name: 'busy season, wears fast', world: { ...BUSY, beta: 2, theta: 32 } },
  { name: 'half the trips', world: { ...BUSY, trips: 60, beta: 2, theta: 32 } },
  { name: 'wears gently', world: { ...BUSY, beta: 1.6, theta: 36 } },
  { name: 'wears late and hard', world: { ...BUSY, beta: 2.6, theta: 40 } },
  { name: 'does not wear', world: { ...BUSY, beta: 1, theta: 30 } },
  { name: 'spools differ (gamma, shape 6)', world: { ...BUSY, beta: 2, theta: 32, spoolShape: 6 } },
  { name: 'rough trips (gamma, shape 2)', world: { ...BUSY, beta: 2, theta: 32, tripShape: 2 } },
];

const percent = (share: number) =>
  Number.isFinite(share) ? `${(100 * share).toFixed(1)} %` : 'none';

function row(name: string, { world, ...study }: WearStudy): string {
  const cells = [
    name,
    `${world.beta}, ${world.theta}`,
    `${world.trips}`,
    study.meanBreaks.toFixed(0),
    percent(study.betaHeld),
    percent(study.ageError),
    percent(study.advised),
    percent(study.advisedError),
    percent(study.ageHeld),
  ];
  return `| ${cells.join(' | ')} |`;
}

const rows = WORLDS.map(({ name, world }, at) => {
  const study = row(name, wearStudy(world, { runs: RUNS, firstSeed: FIRST_SEED + 1000 * at }));
  console.log(study);
  return study;
});
const text = `# How well line wear is read: simulated seasons with known wear

Made by \`npx tsx tests/studies/run-wear-study.ts\` on ${new Date().toISOString().slice(0, 10)}: ${RUNS} seasons a row,
seeds ${FIRST_SEED} on, a thousand further for each row. Eight rods, fights in bursts (a gamma day of shape 1.3), reels
filled every 9 to 17 trips and some much later, one season with the wear of its row. Every season goes the whole way
from log rows to the figures; a filling costs 38, a lost fish 90.

Held: share of seasons whose 95 % interval held the truth. Error: median of |age − true age| ÷ true age. Advised: an age
is named, for there are five breaks or more and beta's lower limit is above 1. Where line does not wear there is no true
age, and an age advised is a false alarm.

| season | beta, theta | trips | breaks | beta held | error of age | advised | error where advised | age held where advised |
| --- | --- | --- | --- | --- | --- | --- | --- | --- |
${rows.join('\n')}

The 95 % interval of beta held the truth in 93 to 97 % of seasons in every row, also where spools or trips differ beyond
their age; the respool age missed by 7 to 16 % (median). On line that does not wear an age was named in 3 % of seasons.
`;
writeFileSync(join(import.meta.dirname, 'wear-study.md'), text);
