import { type Estimate, estimated, notEstimable } from '../../src/base/estimate.ts';
import { marginOf, type Verdict, verdictOf } from '../../src/decide/verdict.ts';
import type { Comparison } from '../../src/estimate/comparison.ts';
import type { DroppedCovariate, Lens, LensName } from '../../src/estimate/lens.ts';
import { DEFAULT_SETTINGS } from '../../src/settings/settings.ts';
import type { FactorName } from '../../src/tally/factors.ts';
import type { Measure } from '../../src/tally/measures.ts';

/** `[estimate, lower, upper]`, or why there is none. */
export type Figured = readonly [number, number, number] | string;

/** What a test cares about in a comparison; the rest is plain. */
export interface ComparisonParts {
  readonly factor?: FactorName;
  readonly levels?: readonly [string, string];
  readonly measure?: Measure;
  /** The deciding figure: a difference for shares, a ratio for rates. */
  readonly gap: Figured;
  readonly a?: Figured;
  readonly b?: Figured;
  /** The most careful lens that stands. */
  readonly lens?: LensName;
  readonly covariates?: readonly FactorName[];
  readonly trips?: number;
  readonly bites?: number;
  readonly tied?: readonly DroppedCovariate[];
}

const BASIS = { level: 0.95, method: 'test', n: 100, exposure: null, notes: [] };

export function figureOf(figured: Figured): Estimate {
  if (typeof figured === 'string') return notEstimable(figured, BASIS);
  const [estimate, lower, upper] = figured;
  return estimated({ ...BASIS, estimate, lower, upper });
}

/** A comparison made by hand: one lens that carries the verdict, the more careful ones refused. */
export function makeComparison(parts: ComparisonParts): Comparison {
  const name = parts.lens ?? 'adjusted';
  const careful: readonly LensName[] = ['adjusted', 'same_day', 'as_logged'];
  const refusedAbove = careful.slice(0, careful.indexOf(name));
  const lensOf = (of: LensName) => makeLens(of, parts, refusedAbove.includes(of));
  return {
    factor: parts.factor ?? 'line_type',
    levels: parts.levels ?? ['braid', 'mono'],
    measure: parts.measure ?? 'hookup_rate',
    level: 0.95,
    lenses: {
      as_logged: lensOf('as_logged'),
      same_day: lensOf('same_day'),
      adjusted: lensOf('adjusted'),
    },
    crossTables: [],
    tied: parts.tied ?? [],
    season: { steps: [], clearSince: null, refused: 'not in this test' },
  };
}

function makeLens(name: LensName, parts: ComparisonParts, isRefused: boolean): Lens {
  const gap = figureOf(isRefused ? 'It does not stand.' : parts.gap);
  return {
    name,
    difference: gap,
    ratio: gap,
    oddsRatio: null,
    a: figureOf(parts.a ?? [0.6, 0.5, 0.7]),
    b: figureOf(parts.b ?? [0.5, 0.4, 0.6]),
    trips: parts.trips ?? 40,
    bites: parts.bites ?? 800,
    method: 'test',
    covariates: name === 'adjusted' ? (parts.covariates ?? ['reach', 'month']) : [],
    dropped: [],
    refused: gap.kind === 'not-estimable' ? gap.reason : null,
  };
}

/** The verdict under the settings of a captain who has set nothing. */
export function verdictOn(comparison: Comparison): Verdict {
  return verdictOf(comparison, DEFAULT_SETTINGS);
}

export const marginFor = (measure: Measure): number => marginOf(measure, DEFAULT_SETTINGS);
