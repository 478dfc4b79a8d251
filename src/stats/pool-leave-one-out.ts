import type { Study } from './pool-study.ts';

/**
 * A pooled figure worked out again without each study in turn, in the studies' order: shows whether
 * one study carries the answer.
 * @param pool any of the pooling functions, e.g. `(rest) => poolFixed(rest, { level })`; with two
 *   studies it is given one, and with one study none, and says itself what comes of that.
 */
export function leaveOneOut<Result>(
  studies: readonly Study[],
  pool: (rest: readonly Study[]) => Result,
): Result[] {
  return studies.map((_, left) => pool(studies.filter((_, i) => i !== left)));
}
