import { type Estimate, mapEstimate } from '../base/estimate.ts';
import type { MonthLoads } from '../decide/load-by-month.ts';
import type { LoadLine, LoadList } from '../decide/load-list.ts';
import type { BaitStock, Stock } from '../decide/load-stock.ts';
import type { Substitute } from '../decide/substitute-bait.ts';
import { RANKED_BY } from '../estimate/bait-standing.ts';
import type { BaitCount } from '../estimate/bait-yield.ts';
import type { StandardisedIndex } from '../estimate/standardised-index.ts';
import { limitsRecord, notesOf } from './document.ts';

/** What `stock` says, as its document carries it. */
export function stockRecord(stock: Stock, currency: string | null) {
  const { list, baits, byMonth, ranking, adjusted } = stock;
  const { request, costs, total } = list;
  return {
    baits: baits.map((bait) => baitRecord(bait, adjusted, list)),
    total:
      total === null
        ? null
        : {
            baits: total.baits,
            buy: total.buy,
            expected_cost: total.expectedCost,
            price: total.money,
          },
    costs:
      costs === null
        ? null
        : { bait_short: costs.shortCost, bait_left: costs.leftCost, quantile: costs.ratio },
    limits: { tank: request.tank, budget: request.budget, method: list.method },
    by_month: byMonth.map(monthRecord),
    substitutes: stock.substitutes.map(substituteRecord),
    ranked_by: RANKED_BY,
    currency,
    refused: list.refused,
    notes: [...list.notes, ...ranking.notes],
  };
}

/** One bait: what it brings, how it stands, what to load. */
function baitRecord(
  { bait, brings, line, standing }: BaitStock,
  adjusted: Stock['adjusted'],
  list: LoadList,
) {
  const { perHour, perBait, perMoney, costPerFish, price } = brings;
  const hourly = (count: BaitCount) => limitsRecord(perHour[count]?.rate ?? NOTHING);
  const per100 = (count: BaitCount) =>
    limitsRecord(mapEstimate(perBait[count], (perBait) => 100 * perBait));
  const perUnit = (count: BaitCount) => (perMoney === null ? null : limitsRecord(perMoney[count]));
  return {
    bait,
    soaks: brings.use.soaks,
    bait_hours: perHour.bites?.line_hours ?? null,
    deployed: brings.deployed,
    died: brings.died,
    used: brings.used,
    bought: brings.bought,
    price: price?.mean ?? null,
    survival: brings.survival,
    bites_per_bait_hour: hourly('bites'),
    hooked_per_bait_hour: hourly('hooked'),
    caught_per_bait_hour: hourly('caught'),
    bites_index_adjusted: indexRecord(adjusted.bites, bait),
    hooked_index_adjusted: indexRecord(adjusted.hooked, bait),
    caught_index_adjusted: indexRecord(adjusted.caught, bait),
    bites_per_100_baits: per100('bites'),
    hooked_per_100_baits: per100('hooked'),
    caught_per_100_baits: per100('caught'),
    bites_per_unit_of_money: perUnit('bites'),
    hooked_per_unit_of_money: perUnit('hooked'),
    caught_per_unit_of_money: perUnit('caught'),
    cost_per_caught: costPerFish === null ? null : limitsRecord(costPerFish.used),
    cost_per_caught_on_bought: costPerFish === null ? null : limitsRecord(costPerFish.bought),
    shrunken_caught_per_bait_hour: standing?.shrunken ?? null,
    best_probability: standing?.probabilityBest ?? null,
    near_best_probability: standing?.probabilityNearBest ?? null,
    use_per_trip: line === null ? null : useRecord(line),
    load: line === null ? null : loadRecord(line, list),
    notes: [...new Set([...notesOf(perBait.caught), ...(line?.notes ?? [])])],
  };
}

const NOTHING: Estimate = {
  kind: 'not-estimable',
  reason: 'No line-hours are recorded with it.',
  level: 0,
  method: '',
  n: 0,
  exposure: null,
  notes: [],
};

/** The law of its use; `size` null where it is Poisson. */
function useRecord({ fit, trips, tripsUsed, tripsRanOut }: LoadLine) {
  const counted = { trips, trips_used: tripsUsed, trips_ran_out: tripsRanOut };
  if (fit === null) return { mean: null, size: null, family: null, ...counted };
  const size = Number.isFinite(fit.size) ? fit.size : null;
  return { mean: fit.mean, size, family: fit.family, ...counted };
}

/** `quantile` is the chance of having enough that the two costs ask for. */
function loadRecord({ load, enough, held, buy }: LoadLine, { request, costs }: LoadList) {
  return {
    trips: request.nextTrips,
    quantile: costs?.ratio ?? null,
    enough_probability: load?.enoughProbability ?? null,
    baits: load?.load ?? null,
    expected_short: load?.expectedShort ?? null,
    expected_left: load?.expectedLeft ?? null,
    expected_cost: load?.expectedCost ?? null,
    held,
    buy,
    enough_for: enough.map(({ chance, baits }) => ({ chance, baits })),
  };
}

function monthRecord({ month, trips, list }: MonthLoads) {
  return {
    month,
    trips,
    loads: list.lines.map(({ bait, load, enough, notes }) => ({
      bait,
      baits: load?.load ?? null,
      enough_for: enough.map(({ chance, baits }) => ({ chance, baits })),
      notes,
    })),
  };
}

function substituteRecord({ reach, ranking, sureness, baits, sentence }: Substitute) {
  return {
    reach,
    sureness,
    baits,
    ranking: ranking.levels.map(({ raw, shrunken, probabilityBest }) => ({
      bait: raw.by.bait,
      bites: raw.bites,
      caught_per_line_hour: limitsRecord(raw.rate),
      shrunken,
      best_probability: probabilityBest,
    })),
    notes: ranking.notes,
    sentence,
  };
}

function indexRecord(index: StandardisedIndex, bait: string) {
  const row = index.rows.find(({ level }) => level === bait);
  return row === undefined ? null : limitsRecord(row.standardised);
}
