import { type BaitPrice, baitPrice, baitSurvival } from '../estimate/bait-price.ts';
import { type BaitFilter, type BaitTrips, baitTrips, cutsBaitUse } from '../estimate/bait-trips.ts';
import { type Allocation, allocateLoads } from '../stats/load-allocation.ts';
import { type LoadOutcome, loadOutcome } from '../stats/newsvendor.ts';
import { factorWords } from '../tally/factor-words.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import { type BaitLoad, baitLoad } from './load-bait.ts';
import { type LoadCosts, loadCosts } from './load-costs.ts';
import { baitsToBuy } from './load-held.ts';
import { loadNotes } from './load-notes.ts';

/** What is to be loaded for. */
export interface LoadRequest extends BaitFilter {
  /** How many trips one load must last; 1 or more. */
  readonly nextTrips: number;
  /** Calendar month, 1 to 12, whose trips alone are looked at; null: all. */
  readonly month: number | null;
  /** The most baits the well keeps alive, and the most money for bait; null: no limit. */
  readonly tank: number | null;
  readonly budget: number | null;
  /** Baits still alive from another day. */
  readonly held: Readonly<Record<string, number>>;
}

/** One line of the list. */
export interface LoadLine extends BaitLoad {
  /** The load to have aboard within the limits; null where none can be named. */
  readonly load: LoadOutcome | null;
  readonly price: BaitPrice | null;
  readonly held: number;
  /** Baits to buy beside those held; null where no load can be named. */
  readonly buy: number | null;
}

/** What to load of every bait. */
export interface LoadList {
  readonly request: LoadRequest;
  readonly lines: readonly LoadLine[];
  readonly costs: LoadCosts | null;
  /** Whether the limits bind, and how they were shared; null without costs. */
  readonly method: Allocation['method'] | null;
  /** Sums over the list; null without costs. */
  readonly total: {
    readonly baits: number;
    readonly buy: number;
    readonly expectedCost: number;
    /** At the mean price of each bait; null where a price is not known. */
    readonly money: number | null;
  } | null;
  /** Why nothing can be loaded by; null where something can. */
  readonly refused: string | null;
  readonly notes: readonly string[];
}

/** The list of loads for the next trips, all baits within one well and one purse. */
export function loadList(season: TidySeason, request: LoadRequest): LoadList {
  const baits = ofMonth(baitTrips(season, request), request.month);
  const costs = loadCosts(season.log.settings.costs);
  const known = typeof costs === 'string' ? null : costs;
  const refused = whyNoLoad(season, baits, request) ?? whyNoLimits(costs, request);
  const empty = { request, costs: known, method: null, total: null };
  if (refused !== null) return { ...empty, lines: [], refused, notes: [] };
  const loads = baits.map((use) => ({
    use,
    price: baitPrice(use),
    bait: baitLoad(use, { nextTrips: request.nextTrips, costs: known }),
  }));
  const shared = known === null ? null : sharedLoads(loads, request, known);
  const lines = loads.map(({ use, price, bait }, at): LoadLine => {
    const load = shared?.outcomes[at] ?? null;
    const held = request.held[use.bait] ?? 0;
    const buy = load === null ? null : buyBeside(bait, load, { use, held, costs: known });
    return { ...bait, load, price, held, buy };
  });
  return {
    ...empty,
    lines,
    method: shared?.method ?? null,
    total: known === null ? null : totalOf(lines),
    refused: null,
    notes: [...(typeof costs === 'string' ? [costs] : []), ...loadNotes(season, baits, request)],
  };
}

function ofMonth(baits: readonly BaitTrips[], month: number | null): BaitTrips[] {
  return baits.map((bait) => ({
    ...bait,
    trips: bait.trips.filter(
      ({ trip }) => month === null || Number(trip.date.slice(5, 7)) === month,
    ),
  }));
}

interface Loaded {
  readonly use: BaitTrips;
  readonly price: BaitPrice | null;
  readonly bait: BaitLoad;
}

/** Loads within the well and the purse; a bait without a law has none. */
function sharedLoads(loads: readonly Loaded[], request: LoadRequest, costs: LoadCosts) {
  const able = loads.flatMap(({ bait, price }, at) =>
    bait.law === null
      ? []
      : [{ at, law: bait.law, most: bait.most, space: 1, price: price?.mean ?? 0, ...costs }],
  );
  const limits = {
    tank: request.tank ?? Number.POSITIVE_INFINITY,
    budget: request.budget ?? Number.POSITIVE_INFINITY,
  };
  const shared = allocateLoads(able, limits);
  const outcomes: (LoadOutcome | null)[] = loads.map(() => null);
  if (shared.kind === 'not-estimable') return { outcomes, method: null };
  for (const [i, { at, law }] of able.entries()) {
    outcomes[at] = loadOutcome(law, shared.loads[i] ?? 0, costs);
  }
  return { outcomes, method: shared.method };
}

/** What to buy: the load, less what lives of the baits held, at the chance the load is enough. */
function buyBeside(
  bait: BaitLoad,
  load: LoadOutcome,
  {
    use,
    held,
    costs,
  }: { readonly use: BaitTrips; readonly held: number; readonly costs: LoadCosts | null },
): number {
  if (held === 0 || bait.law === null || costs === null) return load.load;
  const survival = baitSurvival(use) ?? 1;
  const chance = Math.min(costs.ratio, load.enoughProbability);
  return Math.min(load.load, baitsToBuy(bait.law, { count: held, survival }, chance));
}

function totalOf(lines: readonly LoadLine[]): LoadList['total'] {
  const sum = (of: (line: LoadLine) => number) =>
    lines.reduce((total, line) => total + of(line), 0);
  const unpriced = lines.some(({ price, buy }) => price === null && buy !== null && buy > 0);
  return {
    baits: sum(({ load }) => load?.load ?? 0),
    buy: sum(({ buy }) => buy ?? 0),
    expectedCost: sum(({ load }) => load?.expectedCost ?? 0),
    money: unpriced ? null : sum(({ buy, price }) => (buy ?? 0) * (price?.mean ?? 0)),
  };
}

/** Without costs nothing tells which bait to leave ashore when the well or the purse is too small. */
function whyNoLimits(costs: LoadCosts | string, { tank, budget }: LoadRequest): string | null {
  if (typeof costs !== 'string' || (tank === null && budget === null)) return null;
  return `A well or a purse cannot be shared out without costs. ${costs}`;
}

function whyNoLoad(
  { log }: TidySeason,
  baits: readonly BaitTrips[],
  { month, only }: LoadRequest,
): string | null {
  const cut = cutsBaitUse(only).map(factorWords);
  if (cut.length > 0) {
    return `Baits are loaded for the whole boat, so their use cannot be cut down to one ${cut.join(' or ')}.`;
  }
  if (log.soaks === null) {
    return 'What baits were put out is not recorded: log each line in soaks.csv with its bait.';
  }
  if (baits.length === 0) return 'No soak of these trips names its bait.';
  const trips = baits[0]?.trips.length ?? 0;
  if (trips === 0 && month !== null) return 'The log has no trip with soaks in that month.';
  return trips === 0 ? 'No trip of the log has soaks.' : null;
}
