import { type Estimate, mapEstimate } from '../base/estimate.ts';
import type { LineAdvice, RespoolAdvice } from '../decide/respool-advice.ts';
import type { RodDue } from '../decide/respool-due.ts';
import type { WearFigures } from '../estimate/wear-bands.ts';
import type { LineWear } from '../estimate/wear-by-line-type.ts';
import type { FirstBreakCurve, FirstBreaks } from '../estimate/wear-first-break.ts';
import { TREND_STEP } from '../estimate/wear-trend.ts';
import { limitsRecord, notesOf } from './document.ts';

/** What `wear` says, as its document carries it. */
export function wearRecord({ wear, lines, rods }: RespoolAdvice, currency: string | null) {
  const byFights = wear.firstBreaks.find(({ unit }) => unit === 'fights');
  return {
    lines: lines.map(lineRecord),
    first_break: wear.firstBreaks.flatMap(({ curves }) => curves.map(curveRecord)),
    log_rank: byFights === undefined ? null : logRankRecord(byFights),
    rods: rods.map(rodRecord),
    currency,
    refused: wear.refused,
    notes: wear.notes,
  };
}

/** One line type: figures, wear, age, cost. */
function lineRecord({ line, prices, advice, cost, atPrices, sentence }: LineAdvice) {
  const { law } = line;
  const inTrips = (figure: Estimate) =>
    line.fightsPerTrip === null
      ? null
      : limitsRecord(mapEstimate(figure, (fights) => fights / (line.fightsPerTrip ?? 1)));
  return {
    line_type: line.lineType,
    spools: line.spools.length,
    ...figuresRecord(line),
    fights_per_trip: line.fightsPerTrip,
    power_law: {
      beta: limitsRecord(law.beta),
      theta: law.kind === 'fitted' ? law.theta : null,
      unit: 'fights',
      notes: notesOf(law.beta),
    },
    respool_age:
      advice.kind === 'advised'
        ? {
            ...limitsRecord(advice.age),
            unit: 'fights',
            trips: inTrips(advice.age),
            near_best: { lower: advice.nearBest.lower, upper: finite(advice.nearBest.upper) },
          }
        : null,
    cost_per_season: {
      actual: cost.actual === null ? null : limitsRecord(cost.actual),
      best: cost.best === null ? null : limitsRecord(cost.best),
      fights: cost.fights,
      fillings: cost.fillings,
      fights_per_filling: cost.fightsPerFilling,
    },
    prices: {
      spool: prices.spoolCost,
      spool_from: prices.spoolCostFrom,
      lost_fish: prices.lostFish,
    },
    at_prices: atPrices.map(({ lostFish, fishPerFilling, age }) => ({
      lost_fish: lostFish,
      fish_per_filling: fishPerFilling,
      respool_age: limitsRecord(age),
    })),
    reason: advice.kind === 'advised' ? null : advice.reason,
    sentence,
    odds_ratio_per_10_fights: trendRecord(line),
    by_age: line.bands.map((band) => ({
      line_age_band: band.band,
      trips: band.trips,
      bites: band.bites,
      pulled: band.pulled,
      ...figuresRecord(band),
    })),
  };
}

/** What stands both with a line type and with each of its ages. */
function figuresRecord(figures: WearFigures) {
  return {
    fights: figures.fights,
    line_hours: figures.lineHours,
    breaks: figures.breaks,
    breaks_per_100_fights: per100(figures.breaksPerFight),
    breaks_per_100_line_hours: per100(figures.breaksPerLineHour),
    pulled_per_100_fights: per100(figures.pulledPerFight),
    hooked_per_100_bites: per100(figures.hookedPerBite),
  };
}

/** By what the odds are multiplied on line ten fights older. */
function trendRecord({ trends }: LineWear) {
  return {
    fights_older: TREND_STEP,
    breaks: limitsRecord(trends.breaks),
    pulled: limitsRecord(trends.pulled),
    hooked: limitsRecord(trends.fights),
  };
}

const UNIT_NAMES = { fights: 'fights', trips: 'trips', lineHours: 'line_hours' } as const;

/** Age, share of spools unbroken, and its limits; null limits where the curve has reached 0. */
function curveRecord({ lineType, unit, curve }: FirstBreakCurve) {
  const steps = curve.steps.map(({ time, survival, lower, upper }) => [
    time,
    survival,
    lower,
    upper,
  ]);
  return {
    line_type: lineType,
    unit: UNIT_NAMES[unit],
    spools: curve.lives,
    broken: curve.events,
    last: curve.lastTime,
    curve: curve.lives === 0 ? [] : [[0, 1, 1, 1], ...steps],
  };
}

function logRankRecord({ difference }: FirstBreaks) {
  if (difference.kind === 'not-estimable') {
    return { chi_square: null, df: null, p: null, unit: 'fights', reason: difference.reason };
  }
  const { statistic, df, p } = difference;
  return { chi_square: statistic, df, p, unit: 'fights', reason: null };
}

/** One rod as it is now. */
function rodRecord({ rod, spool, age, ahead, aheadOnNewLine, ...due }: RodDue) {
  return {
    rod,
    line_type: spool.line_type,
    filled: spool.date,
    age: { trips: age.trips, fights: age.fights, line_hours: age.lineHours },
    fights_per_trip: due.fightsPerTrip,
    expected_breaks_next_10_trips: ahead === null ? null : limitsRecord(ahead),
    expected_on_new_line: aheadOnNewLine,
    due: due.isDue,
    trips_left: due.tripsLeft,
    why: due.why,
  };
}

/** A figure of one told for a hundred. */
function per100(figure: Estimate) {
  return limitsRecord(mapEstimate(figure, (value) => 100 * value));
}

function finite(value: number): number | null {
  return Number.isFinite(value) ? value : null;
}
