/**
 * One life under watch: a spool until its first break, a fish until it is at the boat.
 * `time` is its length in any unit (hours, trips, fights, minutes), 0 or more; `event` says whether
 * it ended as asked about. Without it the life is censored: it was at least this long.
 */
export interface Life {
  readonly time: number;
  readonly event: boolean;
}

/** One time at which something happened, with the lives still under watch just before it. */
export interface RiskStep {
  readonly time: number;
  readonly atRisk: number;
  readonly events: number;
}

/**
 * The table that every survival estimate starts from: one step for each distinct time with an
 * event, in order of time; none where nothing happened. A life censored at the time of an event
 * still counts as at risk there, because it was seen to last at least that long.
 * Throws on a time that is negative or no number.
 * Source: Kaplan & Meier 1958, J. Am. Stat. Assoc. 53:457.
 */
export function riskTable(lives: readonly Life[]): readonly RiskStep[] {
  for (const { time } of lives)
    if (!(time >= 0 && Number.isFinite(time)))
      throw new RangeError(`A life lasts 0 or more, not ${time}.`);
  const ordered = [...lives].sort((a, b) => a.time - b.time);
  const steps: RiskStep[] = [];
  let first = 0;
  while (first < ordered.length) {
    const time = ordered[first]?.time as number;
    let next = first;
    let events = 0;
    for (; ordered[next]?.time === time; next++) if (ordered[next]?.event) events++;
    if (events > 0) steps.push({ time, atRisk: ordered.length - first, events });
    first = next;
  }
  return steps;
}
