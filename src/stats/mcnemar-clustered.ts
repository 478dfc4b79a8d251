import type { TestOutcome } from '../base/test-outcome.ts';
import { chiSquareTested } from './homogeneity-chi-square.ts';
import { NO_PAIR_DIFFERS } from './mcnemar.ts';

/** The pairs of one cluster: how many, and how many of them differ each way. */
export interface ClusterOfPairs {
  readonly pairs: number;
  readonly onlyFirst: number;
  readonly onlySecond: number;
}

/**
 * McNemar's test for pairs that come in clusters, each cluster's surplus one observation; large
 * clusters count for more. 1 degree of freedom. Not testable when no cluster leans to a side, or
 * with fewer than two clusters.
 * Source: Obuchowski 1998, Stat Med 17:1495.
 */
export function mcnemarObuchowski(clusters: readonly ClusterOfPairs[]): TestOutcome {
  const method = 'mcnemar-obuchowski';
  const used = clustersWithPairs(clusters);
  const scale = used.length / (used.length - 1);
  const surpluses = used.map(({ onlyFirst, onlySecond }) => onlyFirst - onlySecond);
  if (used.length < 2) return { kind: 'not-estimable', method, reason: TOO_FEW_CLUSTERS };
  return testOfSum(surpluses, { method, scale });
}

/**
 * The same with each cluster's surplus as a share of its pairs: every cluster counts alike. Not
 * testable when no cluster leans to a side.
 * Source: Durkalski, Palesch, Lipsitz & Rust 2003, Stat Med 22:2417.
 */
export function mcnemarDurkalski(clusters: readonly ClusterOfPairs[]): TestOutcome {
  const shares = clustersWithPairs(clusters).map(
    ({ pairs, onlyFirst, onlySecond }) => (onlyFirst - onlySecond) / pairs,
  );
  return testOfSum(shares, { method: 'mcnemar-durkalski', scale: 1 });
}

const TOO_FEW_CLUSTERS = 'It takes two clusters with pairs to see how clusters vary.';

function testOfSum(
  values: readonly number[],
  { method, scale }: { readonly method: string; readonly scale: number },
): TestOutcome {
  const squares = values.reduce((sum, value) => sum + value ** 2, 0);
  if (squares === 0) {
    const reason = values.length === 0 ? 'There are no pairs.' : NO_CLUSTER_LEANS;
    return { kind: 'not-estimable', method, reason };
  }
  const sum = values.reduce((total, value) => total + value, 0);
  return chiSquareTested({ method, statistic: sum ** 2 / (scale * squares), df: 1 });
}

const NO_CLUSTER_LEANS = `No cluster leans to a side. ${NO_PAIR_DIFFERS}`;

function clustersWithPairs(clusters: readonly ClusterOfPairs[]): ClusterOfPairs[] {
  for (const { pairs, onlyFirst, onlySecond } of clusters) {
    const possible = onlyFirst >= 0 && onlySecond >= 0 && onlyFirst + onlySecond <= pairs;
    if (!possible || !Number.isFinite(pairs))
      throw new RangeError(
        `A cluster of ${pairs} pairs cannot have ${onlyFirst} and ${onlySecond} that differ.`,
      );
  }
  return clusters.filter(({ pairs }) => pairs > 0);
}
