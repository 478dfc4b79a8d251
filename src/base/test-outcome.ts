/** What a hypothesis test says, or a stated reason why it says nothing. */
export type TestOutcome = Tested | NotTestable;

/** A test that could be carried out. */
export interface Tested {
  readonly kind: 'tested';
  /** Name of the test, e.g. `breslow-day`. */
  readonly method: string;
  readonly statistic: number;
  /** Degrees of freedom of its chi-square reference; null where the reference is another. */
  readonly df: number | null;
  /** Probability of a statistic at least so large if nothing differed; 0 to 1. */
  readonly p: number;
}

/** A test that says nothing, and why, in a sentence. */
export interface NotTestable {
  readonly kind: 'not-estimable';
  readonly method: string;
  readonly reason: string;
}
