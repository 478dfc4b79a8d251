import { coefficientsByName, type FittedModel } from '../stats/glm-model.ts';
import type { NegativeBinomialModel } from '../stats/negative-binomial-fit.ts';
import { thetaClusterStandardError } from '../stats/negative-binomial-spread.ts';
import { quantileResiduals } from '../stats/quantile-residuals.ts';
import { Random } from '../stats/random.ts';
import type { ClusterCovariance } from '../stats/sandwich-cluster.ts';
import type { FactorName } from '../tally/factors.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';

/** The model behind an index, as a reviewer wants to see it. */
export interface IndexModel {
  readonly family: 'negative binomial' | 'poisson';
  /** null: the counts vary no more than Poisson, so there is none. */
  readonly theta: number | null;
  readonly thetaStandardError: number | null;
  /** What is counted once: θ depends on it. */
  readonly unit: 'soak' | 'trip';
  readonly aic: number | null;
  /** Pearson χ² over degrees of freedom: of the model, and of Poisson beside it. */
  readonly dispersion: number | null;
  readonly poisson: { readonly aic: number | null; readonly dispersion: number | null };
  readonly terms: readonly FactorName[];
  readonly coefficients: readonly {
    readonly term: string;
    readonly estimate: number | null;
    readonly se: number | null;
  }[];
  /** Randomised quantile residuals in the order of the rows; standard normal if the model holds. */
  readonly residuals: readonly number[];
}

/**
 * The model written out for a reviewer, with errors by trip, θ with its own, Poisson beside it and
 * seeded residuals.
 */
export function indexModel(
  fit: NegativeBinomialModel,
  {
    trips,
    covariance,
    terms,
    season,
    seed,
  }: {
    readonly trips: readonly string[];
    readonly covariance: ClusterCovariance;
    readonly terms: readonly FactorName[];
    readonly season: TidySeason;
    readonly seed: number;
  },
): IndexModel {
  const spread = thetaClusterStandardError(fit, trips);
  const residuals = quantileResiduals(fit.model, new Random(seed));
  const variances = new Map(
    fit.model.names.map((name, at) => [name, covariance.matrix.get(at, at)]),
  );
  return {
    family: Number.isFinite(fit.theta) ? 'negative binomial' : 'poisson',
    theta: Number.isFinite(fit.theta) ? fit.theta : null,
    thetaStandardError: typeof spread === 'number' ? spread : null,
    unit: season.effort.units.some(({ soak }) => soak !== null) ? 'soak' : 'trip',
    aic: fit.model.aic,
    dispersion: dispersionOf(fit.model),
    poisson: { aic: fit.poisson.aic, dispersion: dispersionOf(fit.poisson) },
    terms,
    coefficients: Object.entries(coefficientsByName(fit.model)).map(([term, estimate]) => {
      const variance = variances.get(term);
      return { term, estimate, se: variance === undefined ? null : Math.sqrt(variance) };
    }),
    residuals: 'reason' in residuals ? [] : [...residuals],
  };
}

function dispersionOf({ pearsonChiSquare, dfResidual }: FittedModel): number | null {
  return dfResidual > 0 ? pearsonChiSquare / dfResidual : null;
}
