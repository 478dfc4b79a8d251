import { type Refusal, refuse } from '../base/estimate.ts';
import type { ClusterCovariance } from '../stats/sandwich-cluster.ts';
import { type FForm, waldTest } from '../stats/wald-test.ts';
import type { FactorName } from '../tally/factors.ts';

/** An F statistic with its degrees of freedom and p. */
export type JointTest = FForm;

/**
 * Whether all coefficients of one term are 0, errors by trip: the Wald statistic of the CR2
 * covariance, read as an approximate Hotelling T². It is asked on the scale of the model: of odds for
 * a share, of ratios for a rate.
 * @param term one factor for its main effect, two for their product
 * Refused under Firth's fit, whose sandwich is too small for it, and where a coefficient is missing.
 * Source: Pustejovsky & Tipton 2018, J Bus Econ Stat 36:672 (AHT-Z).
 */
export function jointTest(
  covariance: ClusterCovariance,
  term: readonly FactorName[],
): JointTest | Refusal {
  const { model } = covariance;
  if (model.estimator === 'firth') {
    return refuse(
      'Some combination of levels went all one way: the penalised fit (Firth) then used gives no joint test.',
    );
  }
  const place = model.design.terms.findIndex((one) => one.join() === term.join());
  const names = (model.design.parts[place] ?? []).map((column) => column.name);
  const places = names.map((name) => model.names.indexOf(name));
  if (places.includes(-1)) {
    return refuse('Some levels never met apart from the rest, so there is no joint test.');
  }
  const contrasts = places.map((one) =>
    Float64Array.from(model.names, (_, at) => Number(at === one)),
  );
  const tested = waldTest(covariance, contrasts);
  return tested.kind === 'wald' ? tested.f : tested;
}
