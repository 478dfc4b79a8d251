import { designMatrix } from './design-matrix.ts';
import type { Family } from './glm-family.ts';
import { fitRows } from './glm-fit.ts';
import type { ModelData } from './glm-model.ts';
import { usedRows } from './glm-rows.ts';

/**
 * Deviance of the model with nothing but an intercept (and the offset): what the variables together
 * can at most explain. 0 when all rows are alike; null when the rows cannot be used at all.
 */
export function nullDeviance(model: ModelData, family: Family): number | null {
  const bare = { ...model, design: designMatrix([], {}, model.design.rows) };
  const used = usedRows(bare, family);
  if ('kind' in used) return null;
  const fit = fitRows(bare, family, { used });
  return fit.kind === 'not-estimable' ? null : fit.deviance;
}
