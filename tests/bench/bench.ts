// Times what matters to somebody who waits: whole commands, and the heavy parts of the statistics.
// Run with `npm run bench`. Figures are medians; machines differ, so compare on one machine only.
import { spawnSync } from 'node:child_process';
import { createWriteStream, mkdtempSync, rmSync } from 'node:fs';
import { copyFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { bootstrapTotals } from '../../src/stats/bootstrap-totals.ts';
import { ratioTrip } from '../../src/stats/clustered-ratio-trip.ts';
import { designMatrix, withLevel } from '../../src/stats/design-matrix.ts';
import { fitGlm } from '../../src/stats/glm-fit.ts';
import { indexByLevel } from '../../src/stats/index-by-level.ts';
import { fitNegativeBinomial } from '../../src/stats/negative-binomial-fit.ts';
import { Random } from '../../src/stats/random.ts';
import { clusterCovariance } from '../../src/stats/sandwich-cluster.ts';
import { standardise } from '../../src/stats/standardise.ts';

const cli = new URL('../../.dist/cli.js', import.meta.url).pathname;
const repository = new URL('../..', import.meta.url).pathname;
const demo = new URL('../../data-samples/port-vellamy', import.meta.url).pathname;
const scratch = mkdtempSync(join(tmpdir(), 'linehours-bench-'));

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)] ?? 0;
}

function time(name: string, work: () => void, runs = 5): void {
  work();
  const millis = Array.from({ length: runs }, () => {
    const start = performance.now();
    work();
    return performance.now() - start;
  });
  console.log(`${name.padEnd(58)} ${median(millis).toFixed(0).padStart(7)} ms`);
}

function command(name: string, words: readonly string[], runs = 5): void {
  let peakMb = 0;
  time(
    name,
    () => {
      const script = `process.on('exit', () => process.stderr.write('RSS ' + process.resourceUsage().maxRSS));`;
      const args = [
        '--import',
        `data:text/javascript,${encodeURIComponent(script)}`,
        cli,
        ...words,
      ];
      const { stderr, status } = spawnSync(process.execPath, args, {
        encoding: 'utf8',
        maxBuffer: 1e9,
      });
      if (status === null || status > 1) throw new Error(`${name}: ${stderr}`);
      peakMb = Number(/RSS (\d+)/.exec(stderr)?.[1] ?? 0) / 1024;
    },
    runs,
  );
  console.log(`${''.padEnd(58)} ${peakMb.toFixed(0).padStart(7)} MB at most`);
}

/** 200 trips of 15 rows each: a day effect, four factors of three levels, about one bite a row. */
function madeUpRows() {
  const random = new Random(20_260_101);
  const rows = Array.from({ length: 3000 }, (_, at) => {
    const level = () => `L${random.integer(3)}`;
    return {
      trip: `T${Math.floor(at / 15)}`,
      a: level(),
      b: level(),
      c: level(),
      d: level(),
      e: level(),
    };
  });
  const day = new Map(rows.map((row) => [row.trip, 0.5 * random.normal()]));
  const trials = rows.map(() => 1 + random.poisson(1));
  const hooked = rows.map((row, at) =>
    random.binomial(trials[at] ?? 1, 1 / (1 + Math.exp(-1 - (day.get(row.trip) ?? 0)))),
  );
  return { rows, trials, hooked };
}

const { rows, trials, hooked } = madeUpRows();
const names = ['a', 'b', 'c', 'd', 'e', 'month'] as const;
const variables = Object.fromEntries(
  names.map((name) => {
    const values = rows.map((row) =>
      name === 'month' ? `M${Number(row.trip.slice(1)) % 2}` : row[name],
    );
    return [name, { levels: [...new Set(values)].sort(), values }];
  }),
);
const trips = rows.map((row) => row.trip);

time('logistic, 12 columns, 3,000 tallies, CR2 and Satterthwaite', () => {
  const design = designMatrix(names, variables);
  const model = fitGlm({ design, y: hooked, trials }, { name: 'binomial' });
  if (model.kind !== 'fitted') throw new Error(model.reason);
  const covariance = clusterCovariance(model, trips, 'CR2');
  if ('reason' in covariance) throw new Error(covariance.reason);
  const pair = { a: withLevel(model.design, 'a', 'L1'), b: withLevel(model.design, 'a', 'L0') };
  standardise(model, pair, { covariance, level: 0.95 });
});

time('negative binomial index, 3,000 rows', () => {
  const design = designMatrix(names, variables);
  const fit = fitNegativeBinomial({ design, y: hooked, offset: trials.map(Math.log) });
  if (fit.kind !== 'negative-binomial') throw new Error(fit.reason);
  const covariance = clusterCovariance(fit.model, trips, 'CR3J');
  if ('reason' in covariance) throw new Error(covariance.reason);
  indexByLevel(fit.model, 'month', { covariance, level: 0.95 });
});

const allTrips = Float64Array.from({ length: 200 }, (_, at) => at);
const groups = ['a', 'b', 'c', 'd'].flatMap((name) =>
  ['L0', 'L1', 'L2'].map((level) => {
    const of = (counts: readonly number[]) => {
      const sums = new Float64Array(200);
      for (const [at, row] of rows.entries()) {
        const trip = Number(row.trip.slice(1));
        if (row[name as 'a'] === level) sums[trip] = (sums[trip] ?? 0) + (counts[at] ?? 0);
      }
      return sums;
    };
    return { trips: allTrips, numerators: of(hooked), denominators: of(trials) };
  }),
);
time('10,000 redraws of 200 trips, rates by four factors', () => {
  bootstrapTotals(groups, { trips: 200, draws: 10_000, seed: 1 });
});
time('1,000 clustered rates of 200 trips', () => {
  const clusters = Array.from({ length: 200 }, (_, at) => ({
    events: at % 7,
    exposure: 30 + (at % 5),
  }));
  for (let at = 0; at < 1000; at += 1) ratioTrip(clusters, { level: 0.95 });
});

time('npm start, after it was built once', () => {
  const { status } = spawnSync('npm', ['start', '--silent'], { cwd: repository });
  if (status !== 0) throw new Error('npm start failed.');
});
command('report of the demo season', ['report', demo, '--out', join(scratch, 'pages')]);
command('compare on the demo season', [
  'compare',
  demo,
  '--factor',
  'hook_size',
  '--between',
  '5/0,7/0',
]);
command('rates by bait on the demo season', ['rates', demo, '--by', 'bait', '--json']);
command('--help', ['--help']);

await bigLog(join(scratch, 'big'));
command(
  'check on a log with 100 MB of bites',
  ['check', join(scratch, 'big'), '--out', scratch, '--json'],
  1,
);
rmSync(scratch, { recursive: true, force: true });

/** A log of one day whose bites.csv is 100 MB. */
async function bigLog(folder: string): Promise<void> {
  spawnSync('mkdir', ['-p', folder]);
  await copyFile(join(demo, 'trips.csv'), join(folder, 'trips.csv'));
  await copyFile(join(demo, 'season.yaml'), join(folder, 'season.yaml'));
  const file = createWriteStream(join(folder, 'bites.csv'));
  const head = 'trip_id,bite_id,time,outcome,species,position,bait,rod,hook_size,fight_min,notes\n';
  file.write(head);
  let bytes = head.length;
  for (let at = 0; bytes < 100e6; at += 1) {
    const trip = `PV-${String(1 + (at % 150)).padStart(3, '0')}`;
    const minute = String(at % 60).padStart(2, '0');
    const line = `${trip},B${at},08:${minute},released,sailfish,port-long,sardine,K1,6/0,7,nothing of note\n`;
    bytes += line.length;
    if (!file.write(line)) await new Promise<void>((done) => file.once('drain', () => done()));
  }
  await new Promise<void>((done) => file.end(() => done()));
}
