import { decimalsFor, formatDecimal, THIN_SPACE } from './format-number.ts';

/** One unit the reader may choose: its sign, and how the stored number turns into it. */
interface ReaderUnit {
  readonly sign: string;
  readonly factor: number;
  readonly offset: number;
}

/**
 * The reader's units, by quantity; stored numbers are in knots, metres, °C, centimetres, kilograms.
 * Source of the factors: NIST SP 811 (2008), appendix B.8 (exact: mile 1,609.344 m, nautical mile
 * 1,852 m, foot 0.3048 m, fathom taken as 6 ft, inch 2.54 cm, pound 0.45359237 kg).
 */
export const READER_UNITS = {
  wind: {
    kn: unit('kn', 1),
    mph: unit('mph', 1852 / 1609.344),
    km_h: unit('km/h', 1.852),
    m_s: unit('m/s', 1852 / 3600),
  },
  depth: {
    m: unit('m', 1),
    ft: unit('ft', 1 / 0.3048),
    fa: unit('fa', 1 / (6 * 0.3048)),
  },
  temperature: {
    c: unit('°C', 1),
    f: unit('°F', 1.8, 32),
  },
  length: { cm: unit('cm', 1), in: unit('in', 1 / 2.54) },
  weight: { kg: unit('kg', 1), lb: unit('lb', 1 / 0.45359237) },
} as const;

export type Quantity = keyof typeof READER_UNITS;
export type UnitOf<Q extends Quantity> = keyof (typeof READER_UNITS)[Q];

/** The reader's choice for each quantity, as in the settings. */
export type ReaderUnits = { readonly [Q in Quantity]: UnitOf<Q> };

/** A stored number in the reader's unit, as a number: what an axis draws. */
export function inReaderUnit(value: number, quantity: Quantity, units: ReaderUnits): number {
  const { factor, offset } = chosen(quantity, units);
  return value * factor + offset;
}

/** A stored number in the reader's unit, as text: `14 kn`, `79 °F`, `1.8 m`. */
export function formatMeasured(value: number, quantity: Quantity, units: ReaderUnits): string {
  const shown = inReaderUnit(value, quantity, units);
  const decimals = Math.abs(shown) < 10 ? Math.min(1, decimalsFor(shown)) : 0;
  return `${formatDecimal(shown, decimals)}${THIN_SPACE}${unitSign(quantity, units)}`;
}

/** The sign of the reader's unit, e.g. `kn`, for a heading or an axis title. */
export function unitSign(quantity: Quantity, units: ReaderUnits): string {
  return chosen(quantity, units).sign;
}

function chosen(quantity: Quantity, units: ReaderUnits): ReaderUnit {
  const choices: Readonly<Record<string, ReaderUnit>> = READER_UNITS[quantity];
  const found = choices[units[quantity]];
  if (found === undefined) throw new Error(`There is no unit ${units[quantity]} of ${quantity}.`);
  return found;
}

function unit(sign: string, factor: number, offset = 0): ReaderUnit {
  return { sign, factor, offset };
}
