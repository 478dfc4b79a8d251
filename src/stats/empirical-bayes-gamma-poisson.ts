import { type Refusal, refuse } from '../base/estimate.ts';
import { gammaQuantile, gammaTails, gammaUpperQuantile } from './distributions.ts';
import { limitsOver, weighedPriors } from './empirical-bayes-doubt.ts';
import {
  bestGammaPriorAt,
  type Events,
  gammaPoissonLogLikelihood,
  gammaPriorErrors,
  gammaPriorFamily,
  poissonLogLikelihood,
  shapeProfile,
} from './empirical-bayes-gamma-poisson-likelihood.ts';
import { NO_SPREAD, type ShrunkenOption, spreadNotes } from './empirical-bayes-option.ts';
import { likeliestSpread } from './empirical-bayes-spread.ts';
import { type Level, tailArea } from './interval-level.ts';

/** The rates of several options seen as draws from one gamma distribution, fitted to them all. */
export interface GammaPoissonFit extends GammaPoissonCommon {
  readonly kind: 'fitted';
  readonly shape: number;
  /** In the unit of the exposures: with how much exposure an option outweighs the common rate. */
  readonly rate: number;
  readonly priorVariance: number;
  readonly logLik: number;
  readonly seLogShape: number;
  readonly seLogRate: number;
  readonly covLog: number;
}

/** No spread beyond chance: every option has the common rate. */
export interface GammaPoissonPooled extends GammaPoissonCommon {
  readonly kind: 'pooled';
}

interface GammaPoissonCommon {
  /** The common rate: mean of the prior, or all events over all exposure. */
  readonly priorMean: number;
  /** Log-likelihood of one rate for all. */
  readonly logLikPoisson: number;
  /** In the order given; `shape`, `rate` are the gamma distribution of its rate. */
  readonly options: readonly (ShrunkenOption & { readonly shape: number; readonly rate: number })[];
  readonly level: number;
  /** Full sentences a reader must see beside the table. */
  readonly notes: readonly string[];
}

/**
 * Empirical-Bayes rates of several options by marginal maximum likelihood of the gamma-Poisson
 * (negative binomial) law. An option with little exposure is drawn towards the common rate. Counts
 * and exposures may be effective ones, divided by a design effect. An option without exposure gets
 * the common rate and its spread.
 * Where the options spread no more than chance: full pooling, said in `notes`, with the limits of
 * the common rate (gamma on all events + ½).
 * Not estimable: fewer than two options with exposure; no event at all.
 * Source: Greenwood & Yule 1920, J. R. Stat. Soc. 83:255; Robbins 1956.
 */
export function gammaPoissonFit(
  options: readonly Events[],
  { level }: Level,
): GammaPoissonFit | GammaPoissonPooled | Refusal {
  check(options);
  const tried = options.filter(({ exposure }) => exposure > 0);
  if (tried.length < 2) return refuse('It takes two options that were tried to compare them.');
  const events = sum(tried, (option) => option.events);
  if (events === 0)
    return refuse('Nothing happened with any option, so none can be told from another.');
  const exposure = sum(tried, (option) => option.exposure);
  const poisson = poissonLogLikelihood(tried, events / exposure);
  const common = { logLikPoisson: poisson, level };
  const log = likeliestSpread(shapeProfile(tried));
  const prior = log === null ? null : bestGammaPriorAt(tried, Math.exp(log));
  const logLik = prior === null ? poisson : gammaPoissonLogLikelihood(tried, prior);
  if (prior === null || logLik < poisson) return pooled(options, { ...common, events, exposure });
  return {
    kind: 'fitted',
    ...common,
    ...prior,
    priorMean: prior.shape / prior.rate,
    priorVariance: prior.shape / prior.rate ** 2,
    logLik,
    ...gammaPriorErrors(tried, prior),
    options: shrunkenOptions(options, level, (option) => {
      const [shape, rate] = [option.events + prior.shape, option.exposure + prior.rate];
      return { shape, rate, posteriorMean: shape / rate, shrinkWeight: option.exposure / rate };
    }),
    notes: spreadNotes(logLik - poisson, tried.length),
  };
}

function pooled(
  options: readonly Events[],
  given: Pick<GammaPoissonCommon, 'logLikPoisson' | 'level'> & Events,
): GammaPoissonPooled {
  const { events, exposure, ...common } = given;
  const all = { shape: events + 0.5, rate: exposure, posteriorMean: events / exposure };
  return {
    kind: 'pooled',
    ...common,
    priorMean: events / exposure,
    options: shrunkenOptions(options, common.level, () => ({ ...all, shrinkWeight: 0 })),
    notes: [NO_SPREAD],
  };
}

interface Drawn {
  readonly shape: number;
  readonly rate: number;
  readonly posteriorMean: number;
  readonly shrinkWeight: number;
}

/** Each option with its limits; `drawn` says where the fit puts it. */
function shrunkenOptions(
  options: readonly Events[],
  level: number,
  drawn: (option: Events) => Drawn,
): (ShrunkenOption & Drawn)[] {
  const priors = weighedPriors(gammaPriorFamily(options.filter(({ exposure }) => exposure > 0)));
  return options.map((option) => {
    const { events, exposure } = option;
    const place = drawn(option);
    const laws = priors.map(({ prior, weight }) => {
      return { weight, shape: events + prior.shape, rate: exposure + prior.rate };
    });
    const beliefs = laws.map(({ weight, shape, rate }) => {
      return { weight, belief: (x: number) => gammaTails(x * rate, shape).lower };
    });
    // Beyond every prior's own upper limit the average has surely passed it.
    const upper = Math.max(
      ...laws.map(({ shape, rate }) => gammaUpperQuantile(tailArea(level) / 2, shape) / rate),
    );
    return {
      ...place,
      raw: exposure > 0 ? events / exposure : null,
      posteriorLower: gammaQuantile(tailArea(level), place.shape) / place.rate,
      posteriorUpper: gammaUpperQuantile(tailArea(level), place.shape) / place.rate,
      ...limitsOver(beliefs, { level, upper, within: place.posteriorMean }),
    };
  });
}

function check(options: readonly Events[]): void {
  for (const { events, exposure } of options) {
    const possible = events >= 0 && exposure >= 0 && events + exposure < Number.POSITIVE_INFINITY;
    if (!possible || (exposure === 0 && events > 0))
      throw new RangeError(`${events} events in an exposure of ${exposure} cannot be.`);
  }
}

const sum = (options: readonly Events[], of: (option: Events) => number): number =>
  options.reduce((total, option) => total + of(option), 0);
