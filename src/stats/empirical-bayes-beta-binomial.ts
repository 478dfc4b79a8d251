import { type Refusal, refuse } from '../base/estimate.ts';
import { betaQuantile, betaTails, betaUpperQuantile } from './distributions.ts';
import {
  bestPriorAt,
  betaBinomialLogLikelihood,
  betaPriorErrors,
  betaPriorFamily,
  binomialLogLikelihood,
  logChoices,
  precisionProfile,
} from './empirical-bayes-beta-binomial-likelihood.ts';
import { limitsOver, weighedPriors } from './empirical-bayes-doubt.ts';
import { NO_SPREAD, type ShrunkenOption, spreadNotes } from './empirical-bayes-option.ts';
import { likeliestSpread } from './empirical-bayes-spread.ts';
import { type Trials, taroneZ } from './empirical-bayes-tarone.ts';
import { type Level, tailArea } from './interval-level.ts';

/** The rates of several options seen as draws from one beta distribution, fitted to them all. */
export interface BetaBinomialFit extends BetaBinomialCommon {
  readonly kind: 'fitted';
  readonly precisionInfinite: false;
  readonly alpha: number;
  readonly beta: number;
  /** α + β: with how many trials of its own an option outweighs the common rate. */
  readonly precision: number;
  /** 1/(α + β + 1): correlation of two trials of one option. */
  readonly rho: number;
  readonly logLik: number;
  readonly logLikWithoutBinomialCoefficients: number;
  readonly seLogAlpha: number;
  readonly seLogBeta: number;
  readonly covLog: number;
}

/** No spread beyond chance: α + β is infinite and every option has the common rate. */
export interface BetaBinomialPooled extends BetaBinomialCommon {
  readonly kind: 'pooled';
  readonly precisionInfinite: true;
}

interface BetaBinomialCommon {
  /** The common rate: mean of the prior, or all successes over all trials. */
  readonly mean: number;
  readonly taroneZ: number | null;
  /** Log-likelihood of one rate for all. */
  readonly logLikBinomial: number;
  /** In the order given; `a`, `b` are the beta distribution of its rate. */
  readonly options: readonly (ShrunkenOption & { readonly a: number; readonly b: number })[];
  readonly level: number;
  /** Full sentences a reader must see beside the table. */
  readonly notes: readonly string[];
}

/**
 * Empirical-Bayes rates of several options by marginal maximum likelihood of the beta-binomial law.
 * An option with few trials is drawn towards the common rate, so 3 for 3 does not top the table.
 * Counts may be effective ones, divided by a design effect. An option without trials gets the
 * common rate and its spread.
 * Where the options spread no more than chance: full pooling, said in `notes`, with the limits of
 * the common rate (Jeffreys).
 * Not estimable: fewer than two options tried; none with more than one trial; all trials successes
 * or none; each option all or nothing.
 * Source: Griffiths 1973, Biometrics 29:637; Williams 1975, Biometrics 31:949.
 */
export function betaBinomialFit(
  options: readonly Trials[],
  { level }: Level,
): BetaBinomialFit | BetaBinomialPooled | Refusal {
  check(options);
  const tried = options.filter(({ trials }) => trials > 0);
  const reason = refusal(tried);
  if (reason !== null) return refuse(reason);
  const choices = logChoices(tried);
  const pooledMean = sum(tried, ({ successes }) => successes) / sum(tried, (o) => o.trials);
  const binomial = binomialLogLikelihood(tried, pooledMean);
  const common = { taroneZ: taroneZ(tried), logLikBinomial: binomial + choices, level };
  const log = likeliestSpread(precisionProfile(tried));
  const prior = log === null ? null : bestPriorAt(tried, Math.exp(log));
  const logLikelihood = prior === null ? binomial : betaBinomialLogLikelihood(tried, prior);
  if (prior === null || logLikelihood < binomial) return pooled(options, { ...common, pooledMean });
  const { alpha, beta } = prior;
  return {
    kind: 'fitted',
    precisionInfinite: false,
    ...common,
    alpha,
    beta,
    mean: alpha / (alpha + beta),
    precision: alpha + beta,
    rho: 1 / (alpha + beta + 1),
    logLik: logLikelihood + choices,
    logLikWithoutBinomialCoefficients: logLikelihood,
    ...betaPriorErrors(tried, prior),
    options: shrunkenOptions(options, level, (option) => {
      const [a, b] = [option.successes + alpha, option.trials - option.successes + beta];
      const shrinkWeight = option.trials / (option.trials + alpha + beta);
      return { a, b, posteriorMean: a / (a + b), shrinkWeight };
    }),
    notes: spreadNotes(logLikelihood - binomial, tried.length),
  };
}

function pooled(
  options: readonly Trials[],
  given: Pick<BetaBinomialCommon, 'taroneZ' | 'logLikBinomial' | 'level'> & { pooledMean: number },
): BetaBinomialPooled {
  const { pooledMean: mean, ...common } = given;
  const successes = sum(options, (option) => option.successes);
  const failures = sum(options, (option) => option.trials) - successes;
  const shape = { a: successes + 0.5, b: failures + 0.5 };
  return {
    kind: 'pooled',
    precisionInfinite: true,
    ...common,
    mean,
    options: shrunkenOptions(options, common.level, () => ({
      ...shape,
      posteriorMean: mean,
      shrinkWeight: 0,
    })),
    notes: [NO_SPREAD],
  };
}

interface Drawn {
  readonly a: number;
  readonly b: number;
  readonly posteriorMean: number;
  readonly shrinkWeight: number;
}

/** Each option with its limits; `drawn` says where the fit puts it. */
function shrunkenOptions(
  options: readonly Trials[],
  level: number,
  drawn: (option: Trials) => Drawn,
): (ShrunkenOption & Drawn)[] {
  const priors = weighedPriors(betaPriorFamily(options.filter(({ trials }) => trials > 0)));
  return options.map((option) => {
    const { successes, trials } = option;
    const place = drawn(option);
    const beliefs = priors.map(({ prior, weight }) => {
      const [a, b] = [successes + prior.alpha, trials - successes + prior.beta];
      return { weight, belief: (x: number) => betaTails(x, a, b).lower };
    });
    return {
      ...place,
      raw: trials > 0 ? successes / trials : null,
      posteriorLower: betaQuantile(tailArea(level), place.a, place.b),
      posteriorUpper: betaUpperQuantile(tailArea(level), place.a, place.b),
      ...limitsOver(beliefs, { level, upper: 1, within: place.posteriorMean }),
    };
  });
}

function refusal(tried: readonly Trials[]): string | null {
  if (tried.length < 2) return 'It takes two options that were tried to compare them.';
  if (!tried.some(({ trials }) => trials > 1))
    return 'No option was tried more than once, so nothing shows how much options differ.';
  const successes = sum(tried, (option) => option.successes);
  if (successes === 0)
    return 'Nothing succeeded with any option, so none can be told from another.';
  if (successes === sum(tried, ({ trials }) => trials))
    return 'Everything succeeded with every option, so none can be told from another.';
  if (tried.every(({ successes: x, trials: n }) => x === 0 || x === n))
    return 'Each option succeeded every time or never, so nothing shows how much is chance.';
  return null;
}

function check(options: readonly Trials[]): void {
  for (const { successes, trials } of options)
    if (!(successes >= 0 && successes <= trials && trials < Number.POSITIVE_INFINITY))
      throw new RangeError(`${successes} successes out of ${trials} trials cannot be.`);
}

const sum = (options: readonly Trials[], of: (option: Trials) => number): number =>
  options.reduce((total, option) => total + of(option), 0);
