/** Two independent groups of events, each over its exposure (line-hours or any other effort). */
export interface TwoRates {
  readonly events1: number;
  readonly exposure1: number;
  readonly events2: number;
  readonly exposure2: number;
}
