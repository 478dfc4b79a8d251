import { answerComparison } from '../../src/decide/answer-comparison.ts';
import type { VerdictWord } from '../../src/decide/verdict.ts';
import { adjustedRows } from '../../src/estimate/adjusted-rows.ts';
import { DEFAULT_COVARIATES, type SeasonCourse } from '../../src/estimate/comparison.ts';
import { type TripPair, tripPairs } from '../../src/estimate/level-pairs.ts';
import { Random } from '../../src/stats/random.ts';
import { sameClusterDifference } from '../../src/stats/same-cluster-difference.ts';
import { WHOLE_LOG } from '../../src/tally/question.ts';
import { tidySeason } from '../../src/tidy/tidy-season.ts';
import { type Cover, CoverCount } from './coverage-count.ts';
import { HOOKUPS } from './coverage-lenses.ts';
import { logOfTrips } from './line-season.ts';
import { talliesOfTrips } from './line-tallies.ts';
import { drawTrips } from './line-trips.ts';
import { onMixOf } from './line-truth.ts';
import type { World } from './line-world.ts';

const level = 0.95;

/** What many seasons of one world were told. */
export interface SceneStudy {
  readonly seasons: number;
  readonly verdicts: Readonly<Record<VerdictWord, number>>;
  /** Whether the limits of a lens hold the true difference on the season's own mix. */
  readonly asLogged: Cover | null;
  readonly adjusted: Cover | null;
  /** Seasons in which the always-valid line was clear after some trip. */
  readonly everClear: number;
  /** Seasons in which the plain same-day interval, read after every fourth trip, was ever clear. */
  readonly everClearByPlain: number;
}

/** Draws seasons and answers each as `compare` would, with every default. */
export function studyScene(
  world: World,
  { seasons, seed }: { readonly seasons: number; readonly seed: number },
): SceneStudy {
  const random = new Random(seed);
  const covers = new CoverCount();
  const verdicts = { clear: 0, alike: 0, open: 0, tied: 0 };
  let [everClear, everClearByPlain] = [0, 0];
  for (let season = 0; season < seasons; season++) {
    const trips = drawTrips({ ...world, monthsDrawn: false }, random);
    const question = { ...WHOLE_LOG, ...HOOKUPS, adjust: DEFAULT_COVARIATES, level };
    const { comparison, verdict } = answerComparison(
      tidySeason(logOfTrips(trips)),
      question,
      HOOKUPS.levels,
    );
    verdicts[verdict.word]++;
    const rows = talliesOfTrips(trips);
    const { as_logged, adjusted } = comparison.lenses;
    const { rows: kept } = adjustedRows(rows, HOOKUPS, DEFAULT_COVARIATES);
    covers.add('as logged', as_logged.difference, onMixOf(world, rows));
    covers.add('adjusted', adjusted.difference, onMixOf(world, kept));
    everClear += Number(wasClear(comparison.season));
    everClearByPlain += Number(looksClear(tripPairs(rows, HOOKUPS)));
  }
  const cover = (name: string) => covers.covers.get(name) ?? null;
  const [asLogged, adjusted] = [cover('as logged'), cover('adjusted')];
  return { seasons, verdicts, asLogged, adjusted, everClear, everClearByPlain };
}

function wasClear({ steps }: SeasonCourse): boolean {
  return steps.some(
    ({ difference }) =>
      difference.kind === 'estimated' && (difference.lower > 0 || difference.upper < 0),
  );
}

/** After how many trips each the plain interval is read. */
export const LOOK_EVERY = 4;

/** Whether the same-day interval, made for one look, would have looked clear at some time. */
function looksClear(pairs: readonly TripPair[]): boolean {
  for (let trips = LOOK_EVERY; trips <= pairs.length; trips += LOOK_EVERY) {
    const figure = sameClusterDifference(pairs.slice(0, trips), { level });
    if (figure.kind === 'estimated' && (figure.lower > 0 || figure.upper < 0)) return true;
  }
  return false;
}
