import {
  type Estimate,
  estimated,
  type Interval,
  notEstimable,
  type Refusal,
} from '../base/estimate.ts';
import { isProportion } from '../estimate/proportion.ts';
import { normalCritical, tCritical } from '../stats/interval-level.ts';
import { type EffectSize, logitProportion, logRate } from '../stats/pool-effect-size.ts';
import { poolFixed } from '../stats/pool-fixed.ts';
import { type Heterogeneity, heterogeneity } from '../stats/pool-heterogeneity.ts';
import { leaveOneOut } from '../stats/pool-leave-one-out.ts';
import { poolRandom } from '../stats/pool-random.ts';
import type { Study } from '../stats/pool-study.ts';
import { MEASURE_NAMES, type Measure } from '../tally/measures.ts';
import type { SharedRate } from './shared-rates.ts';

/** One package's figure, on the scale of the measure. */
export interface PooledStudy {
  readonly label: string;
  readonly rate: SharedRate;
  readonly figure: Estimate;
  /** What it weighs where packages may differ, in percent; null where nothing was pooled. */
  readonly weightPercent: number | null;
}

/** One measure over several packages. */
export interface PooledMeasure {
  readonly measure: Measure;
  readonly studies: readonly PooledStudy[];
  /** The mean as if all packages had one true figure; it answers for these packages only. */
  readonly fixed: Estimate;
  /** The mean of packages that may truly differ, with the interval to show. */
  readonly random: Estimate;
  /** The same with the plain Hartung–Knapp interval, which is too short where packages agree by luck. */
  readonly hartungKnapp: Estimate;
  /** Variance between the true figures, on the log or logit scale; null with one package. */
  readonly tau2: number | null;
  readonly heterogeneity: Heterogeneity | null;
  /** Where one more package like these would lie; null with fewer than three. */
  readonly prediction: Interval | null;
  /** The random mean without each package in turn. */
  readonly leaveOneOut: readonly { readonly without: string; readonly pooled: Estimate }[];
}

/** A package as pooling sees it: a name and its rates. */
export interface RatesOfPackage {
  readonly label: string;
  readonly rates: readonly SharedRate[];
}

/**
 * Each measure that any package has, pooled: rates on the log scale, shares on the logit scale, each
 * package's variance widened by its own design effect. Between packages restricted maximum
 * likelihood.
 * Source: Viechtbauer 2005, J. Educ. Behav. Stat. 30:261; the effective counts are ours.
 */
export function poolRates(packages: readonly RatesOfPackage[], level: number): PooledMeasure[] {
  return MEASURE_NAMES.flatMap((measure) => {
    const found = packages.flatMap(({ label, rates }) => {
      const rate = rates.find((one) => one.measure === measure);
      return rate === undefined ? [] : [{ label, rate }];
    });
    return found.length === 0 ? [] : [poolMeasure(measure, found, level)];
  });
}

type Found = { readonly label: string; readonly rate: SharedRate };

function poolMeasure(measure: Measure, found: readonly Found[], level: number): PooledMeasure {
  const back = isProportion(measure) ? shareOfLogit : Math.exp;
  const sized = found.flatMap(({ label, rate }) => {
    const size = effectSize(rate);
    return size.kind === 'estimated' ? [{ label, rate, size }] : [];
  });
  const sizes = sized.map(({ size }) => size);
  const random = poolRandom(sizes, { level, method: 'reml' });
  const isPooled = random.kind === 'estimated';
  const spread = heterogeneity(sizes, { level });
  const without =
    sizes.length < 2 ? [] : leaveOneOut(sizes, (rest) => randomMean(rest, level, back));
  return {
    measure,
    studies: sized.map(({ label, rate, size }, at) => ({
      label,
      rate,
      figure: studyFigure(rate, size, { level, back }),
      weightPercent: isPooled ? (random.weightsPercent[at] ?? null) : null,
    })),
    fixed: onScale(poolFixed(sizes, { level }), back),
    random: randomMean(sizes, level, back),
    hartungKnapp: onScale(isPooled ? random.hartungKnapp : random, back),
    tau2: isPooled ? random.tau2 : null,
    heterogeneity: spread.kind === 'estimated' ? spread : null,
    prediction: isPooled ? predictionOn(random.predictionInterval, back) : null,
    leaveOneOut: without.map((pooled, at) => ({ without: sized[at]?.label ?? '', pooled })),
  };
}

/** Effective counts: what the log's counts would say if every bite stood alone. */
function effectSize({ measure, numerator, denominator, designEffect }: SharedRate) {
  const d = designEffect ?? 1;
  return isProportion(measure)
    ? logitProportion({ events: numerator / d, n: denominator / d })
    : logRate({ events: numerator / d, exposure: denominator / d });
}

type Back = (effect: number) => number;

/**
 * The random-effects mean with Student's t on the larger of two errors: how the packages scatter, and
 * what their own variances allow. With two packages that agree by luck the first alone gives an
 * interval of hardly any width.
 * Source: Knapp & Hartung 2003, Stat. Med. 22:2693 (their modified interval); Röver, Knapp & Friede
 * 2015, BMC Med. Res. Methodol. 15:99.
 */
function randomMean(sizes: readonly Study[], level: number, back: Back): Estimate {
  const random = poolRandom(sizes, { level, method: 'reml' });
  if (random.kind !== 'estimated') return onScale(random, back);
  const { hartungKnapp, estimate, n } = random;
  const scatter = hartungKnapp.kind === 'estimated' ? hartungKnapp.se : 0;
  const margin = tCritical(level, n - 1) * Math.max(scatter, random.se);
  const method = 'pool-hartung-knapp-modified';
  return onScale({ ...random, method, lower: estimate - margin, upper: estimate + margin }, back);
}

function onScale(pooled: Estimate, back: Back): Estimate {
  const { level, method, n, exposure, notes } = pooled;
  const basis = { level, method, n, exposure, notes };
  if (pooled.kind === 'not-estimable') return notEstimable(pooled.reason, basis);
  const { estimate, lower, upper } = pooled;
  return estimated({ ...basis, estimate: back(estimate), lower: back(lower), upper: back(upper) });
}

/** A package's own figure as it counted, with the interval that pooling gives it. */
function studyFigure(
  { numerator, denominator, measure, trips, designEffect }: SharedRate,
  { effect, variance }: EffectSize,
  { level, back }: { readonly level: number; readonly back: Back },
): Estimate {
  const margin = normalCritical(level) * Math.sqrt(variance);
  const estimate = numerator / denominator;
  const isShare = isProportion(measure);
  const oneTrip = 'One trip alone: how much trips vary is not in its interval.';
  const noEvent =
    'Too little was counted to show how much trips vary; that is not in its interval.';
  return estimated({
    estimate,
    // A count of none, or of all, is widened by a half before its logarithm is taken.
    lower: Math.min(estimate, back(effect - margin)),
    upper: Math.max(estimate, back(effect + margin)),
    level,
    method: isShare ? 'logit-trip' : 'log-trip',
    n: isShare ? denominator : numerator,
    exposure: isShare ? null : denominator,
    notes: designEffect === null ? [trips === 1 ? oneTrip : noEvent] : [],
  });
}

function predictionOn(found: Interval | Refusal, back: Back): Interval | null {
  return 'kind' in found ? null : { lower: back(found.lower), upper: back(found.upper) };
}

function shareOfLogit(logit: number): number {
  return 1 / (1 + Math.exp(-logit));
}
