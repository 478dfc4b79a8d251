import type { Interval, NotEstimable, Refusal } from '../base/estimate.ts';
import type { Level } from './interval-level.ts';
import {
  type BetweenVarianceMethod,
  betweenVariance,
  remlStandardError,
} from './pool-between-variance.ts';
import { type PooledEffect, pooledAt } from './pool-fixed.ts';
import { type HartungKnapp, hartungKnapp } from './pool-hartung-knapp.ts';
import { typicalVariance } from './pool-heterogeneity.ts';
import { predictionInterval, predictionIntervalNormal } from './pool-prediction.ts';
import { notPooled, poolingRefusal, type Study } from './pool-study.ts';

/** A mean over studies that may truly differ, with how much they do. */
export interface RandomEffect extends PooledEffect {
  /** Variance of the true effects between studies. */
  readonly tau2: number;
  /** Standard error of τ²; null for methods other than REML. */
  readonly seTau2: number | null;
  /** Share of the total variance that lies between the studies, in percent, from τ². */
  readonly I2percent: number;
  readonly H2: number;
  /** The interval to show; the normal one in `lower`, `upper` is too short with few studies. */
  readonly hartungKnapp: HartungKnapp | NotEstimable;
  /** Where the true effect of one further study would lie; needs three studies. */
  readonly predictionInterval: Interval | Refusal;
  readonly predictionIntervalZ: Interval;
}

/** How the variance between the studies is estimated: 'reml' unless there is a reason. */
export interface RandomEffectOptions extends Level {
  readonly method: BetweenVarianceMethod;
}

/**
 * The mean of several studies whose true effects vary (random effects), weights 1/(variance + τ²).
 * Not estimable with one study: nothing shows then how much studies differ; or where one has no
 * finite effect or no variance above 0.
 * Source: DerSimonian & Laird 1986; Higgins & Thompson 2002 (I² and H² from τ²).
 */
export function poolRandom(
  studies: readonly Study[],
  { level, method }: RandomEffectOptions,
): RandomEffect | NotEstimable {
  const name = METHOD_NAMES[method];
  const alone = 'One study alone cannot show how much studies differ.';
  const reason = poolingRefusal(studies) ?? (studies.length < 2 ? alone : null);
  if (reason !== null) return notPooled(reason, { studies, level, method: name });
  const tau2 = betweenVariance[method](studies);
  const pooled = pooledAt(studies, tau2, { level, method: name });
  const s2 = typicalVariance(studies);
  const predicted = { ...pooled, tau2 };
  return {
    ...pooled,
    tau2,
    seTau2: method === 'reml' ? remlStandardError(studies, tau2) : null,
    I2percent: (100 * tau2) / (tau2 + s2),
    H2: 1 + tau2 / s2,
    hartungKnapp: hartungKnapp(studies, tau2, { level }),
    predictionInterval: predictionInterval(predicted, { level }),
    predictionIntervalZ: predictionIntervalNormal(predicted, { level }),
  };
}

const METHOD_NAMES = {
  derSimonianLaird: 'pool-dersimonian-laird',
  pauleMandel: 'pool-paule-mandel',
  reml: 'pool-reml',
} as const satisfies Record<BetweenVarianceMethod, string>;
