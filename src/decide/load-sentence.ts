import { formatCount, formatDecimal } from '../base/format-number.ts';
import { levelWords, listWords, plural } from '../base/words.ts';
import type { LoadLine, LoadList } from './load-list.ts';

/** What to load, as one would say it to whoever goes for the bait. */
export function loadSentence(list: LoadList): string {
  const { refused, costs, request, lines } = list;
  if (refused !== null) return refused;
  const trips = request.nextTrips === 1 ? 'the next trip' : `the next ${request.nextTrips} trips`;
  if (costs === null) {
    const eight = lines.flatMap((line) => enoughFor(line, 0.8));
    if (eight.length === 0) return 'No bait was used often enough to say what to load.';
    return `To have enough of each on 8 of 10 trips, load for ${trips} ${listWords(eight)}.`;
  }
  const named = lines.flatMap(({ load, bait }) =>
    load === null || load.load === 0 ? [] : [`${formatCount(load.load)} ${levelWords(bait)}`],
  );
  const isBound = lines.some(({ load, best }) => (load?.load ?? 0) < (best?.load ?? 0));
  if (named.length === 0) {
    const why = isBound ? 'the limits leave room for none' : 'none was used often enough to pay';
    return `Load no bait for ${trips}: ${why}.`;
  }
  const total = list.total?.baits ?? 0;
  const enough = lines.map(({ load }) => load?.enoughProbability ?? 1);
  const chance = Math.floor(100 * Math.min(...enough));
  const how = isBound
    ? 'shared out within the limits so that running short costs least'
    : `each by itself is enough ${chance} times in 100 or more`;
  return `For ${trips} load ${plural(total, 'bait')}: ${listWords(named)}; ${how}.`;
}

function enoughFor({ bait, enough, most }: LoadLine, chance: number): string[] {
  const found = enough.find((one) => one.chance === chance);
  if (found === undefined || found.baits === 0) return [];
  const baits = found.baits === null ? `over ${formatCount(most)}` : formatCount(found.baits);
  return [`${baits} ${levelWords(bait)}`];
}

/** `1 in 7`, `6 in 10`: how often a load falls short; in words where that is next to never or always. */
export function shortWords(probability: number): string {
  if (probability < 0.005) return 'hardly ever';
  if (probability > 0.95) return 'nearly always';
  if (probability > 0.3) return `${formatDecimal(10 * probability, 0)} in 10`;
  return `1 in ${formatDecimal(1 / probability, 0)}`;
}
