import { designMatrix } from '../stats/design-matrix.ts';
import { fitFirthLogistic } from '../stats/firth-logistic.ts';
import { fitGlm } from '../stats/glm-fit.ts';
import type { FittedModel, ModelData } from '../stats/glm-model.ts';
import type { FactorName } from '../tally/factors.ts';
import type { TallyRow } from '../tally/tallies.ts';
import type { AdjustedRows } from './adjusted-rows.ts';
import type { DroppedCovariate } from './lens.ts';
import { type Compared, eventsAndUnits } from './level-pairs.ts';
import { isProportion } from './proportion.ts';
import { separatedReason } from './separated-reason.ts';

const FIRTH =
  'Some combination of levels went all one way, so the penalised (Firth) fit was used in place of maximum likelihood.';

export type AdjustedFit =
  | { readonly model: FittedModel; readonly notes: readonly string[] }
  | { readonly reason: string };

/**
 * The model behind adjusted figures: a logistic one of a share, or a log-linear one of a rate with
 * line-hours as exposure, of the covariates and the compared factor. The factor stands last, so that
 * where columns overlap it is the one given up; with `within`, its product with that covariate follows.
 */
export function fitAdjusted(
  { rows, covariates }: Pick<AdjustedRows, 'rows' | 'covariates'>,
  { factor, levels, measure }: Compared,
  within: FactorName | null = null,
): AdjustedFit {
  const absent = levels.find((one) => !rows.some((row) => row[factor] === one));
  if (absent !== undefined) return { reason: `Nothing is left of ${absent} to compare.` };
  const names = [...covariates, factor];
  const terms = within === null ? names : [...names, `${within}:${factor}`];
  const variables = Object.fromEntries(names.map((name) => [name, factorColumn(rows, name)]));
  const counts = rows.map((row) => eventsAndUnits(row, measure));
  const units = counts.map((count) => count.units);
  const design = designMatrix(terms, variables);
  const y = counts.map((count) => count.events);
  const share = isProportion(measure);
  const data: ModelData = share
    ? { design, y, trials: units }
    : { design, y, offset: units.map(Math.log) };
  const outcome = fitGlm(data, { name: share ? 'binomial' : 'poisson' });
  if (outcome.kind === 'fitted') return { model: outcome, notes: [] };
  if (outcome.kind !== 'separated') return { reason: outcome.reason };
  if (!share) return { reason: separatedReason(outcome.columns, design) };
  const firth = fitFirthLogistic(data);
  return 'reason' in firth ? { reason: firth.reason } : { model: firth, notes: [FIRTH] };
}

function factorColumn(rows: readonly TallyRow[], name: FactorName) {
  const values = rows.map((row) => row[name] ?? '');
  return { levels: [...new Set(values)].sort(), values };
}

/** Levels of the covariates that the fit could not tell from what stood before them. */
export function aliasedCovariates(
  model: FittedModel,
  covariates: readonly FactorName[],
): DroppedCovariate[] {
  return covariates.flatMap((covariate) => {
    const columns = model.aliased.filter((name) => name.startsWith(covariate));
    if (columns.length === 0) return [];
    const levels = columns.map((name) => name.slice(covariate.length)).join(', ');
    const reason = `Level ${levels} says nothing that the other covariates do not say already.`;
    return [{ covariate, reason }];
  });
}
