import { describe, expect, test } from 'vitest';
import { ratioLogT, ratioTrip } from '../../src/stats/clustered-ratio-trip.ts';
import { wilsonTrip, withinTripCorrelation } from '../../src/stats/clustered-wilson-trip.ts';
import { expectClose, loadReference } from '../helpers/reference.ts';

const TOPIC = '20-trip-intervals';

/** The parts of an estimate that R worked out as well; R leaves out what it had no value for. */
interface Expected {
  [key: string]: unknown;
  logT?: { lower: number; upper: number };
  variance?: number;
}

describe('wilson-trip against R, variance and degrees of freedom seconded by clubSandwich', () => {
  interface Inputs {
    successes: number[];
    units: number[];
    level: number;
    borrowedCorrelation: number | null;
  }
  test.each(loadReference<Inputs, Expected>(TOPIC, 'proportion-'))('$id', (reference) => {
    const { successes, units, level, borrowedCorrelation } = reference.inputs;
    const trips = successes.map((x, i) => ({ successes: x, units: units[i] ?? 0 }));
    const { variance: _, ...expected } = reference.expected;
    expectClose(wilsonTrip(trips, { level, borrowedCorrelation }), expected, reference.tolerance);
  });
});

describe('within-trip correlation against R', () => {
  interface Inputs {
    successes: number[];
    units: number[];
  }
  test.each(loadReference<Inputs>(TOPIC, 'correlation-'))('$id', (reference) => {
    const { successes, units } = reference.inputs;
    const trips = successes.map((x, i) => ({ successes: x, units: units[i] ?? 0 }));
    const correlation = withinTripCorrelation(trips);
    expectClose({ correlation }, reference.expected, reference.tolerance);
  });
});

describe('ratio-trip and ratio-log-t against R, seconded by clubSandwich', () => {
  interface Inputs {
    events: number[];
    exposure: number[];
    level: number;
  }
  test.each(loadReference<Inputs, Expected>(TOPIC, 'rate-'))('$id', (reference) => {
    const { events, exposure, level } = reference.inputs;
    const trips = events.map((x, i) => ({ events: x, exposure: exposure[i] ?? 0 }));
    const { variance: _, logT, ...expected } = reference.expected;
    expectClose(ratioTrip(trips, { level }), expected, reference.tolerance);
    if (logT !== undefined) expectClose(ratioLogT(trips, { level }), logT, reference.tolerance);
    else expect(ratioLogT(trips, { level }).kind).toBe('not-estimable');
  });
});
