import { didYouMean } from '../base/nearest.ts';
import { UserError } from '../base/problem.ts';
import { cutsBaitUse } from '../estimate/bait-trips.ts';
import { monthFromName } from '../read/month-names.ts';
import { type CommonOptions, commonOptions, type GivenOptions } from './options.ts';

/** The options of `stock` as the command line gives them. */
export interface StockOptions extends GivenOptions {
  readonly trips?: string;
  readonly month?: string;
  readonly tank?: string;
  readonly budget?: string;
  readonly held?: string;
  readonly without?: string;
}

/** The same, checked and typed. */
export interface CheckedStockOptions extends CommonOptions {
  readonly nextTrips: number;
  readonly month: number | null;
  readonly tank: number | null;
  readonly budget: number | null;
  readonly held: Readonly<Record<string, number>>;
  readonly without: readonly string[];
}

const MOST_TRIPS = 60;

/** Checks the options of `stock`; throws a UserError (exit 2) that names the offending value. */
export function stockOptions(given: StockOptions): CheckedStockOptions {
  const options = commonOptions(given);
  const [cut] = cutsBaitUse(options.only);
  if (cut !== undefined) {
    throw new UserError(
      `--only ${cut}: baits are loaded for the whole boat, so their use cannot be cut down so. ` +
        'Here --only takes bait and whatever a whole trip has, such as month, area or trip_kind.',
      2,
    );
  }
  const nextTrips = given.trips === undefined ? 1 : wholeNumber('--trips', given.trips);
  if (nextTrips < 1 || nextTrips > MOST_TRIPS) {
    throw new UserError(
      `--trips "${given.trips}" must be a whole number from 1 to ${MOST_TRIPS}.`,
      2,
    );
  }
  return {
    ...options,
    nextTrips,
    month: given.month === undefined ? null : monthOf(given.month),
    tank: given.tank === undefined ? null : wholeNumber('--tank', given.tank),
    budget: given.budget === undefined ? null : amount('--budget', given.budget),
    held: heldOf(given.held ?? ''),
    without: wordsOf(given.without ?? ''),
  };
}

/** Checks that baits named in an option are in the log; their names as the log has them. */
export function checkBaits(
  option: string,
  named: readonly string[],
  known: readonly string[],
): void {
  const strange = named.find((bait) => !known.includes(bait));
  if (strange === undefined) return;
  const has = known.length === 0 ? 'none' : known.join(', ');
  throw new UserError(
    `${option}: this log has no bait "${strange}".${didYouMean(strange, known)} It has: ${has}.`,
    2,
  );
}

/** 3, 03, March or 2026-03. */
function monthOf(text: string): number {
  const number = /^(?:\d{4}-)?(\d{1,2})$/.exec(text.trim())?.[1];
  const month = number === undefined ? monthFromName(text.trim()) : Number(number);
  if (month !== null && month >= 1 && month <= 12) return month;
  throw new UserError(`--month "${text}" is no month: write March, 3 or 2026-03.`, 2);
}

function wholeNumber(option: string, text: string): number {
  const value = Number(text);
  if (text.trim() !== '' && Number.isSafeInteger(value) && value >= 0) return value;
  throw new UserError(`${option} "${text}" must be a whole number, zero or more.`, 2);
}

function amount(option: string, text: string): number {
  const value = Number(text);
  if (text.trim() !== '' && Number.isFinite(value) && value >= 0) return value;
  throw new UserError(`${option} "${text}" must be an amount, zero or more, such as 120.`, 2);
}

/** `mullet=6,scad=4`. */
function heldOf(text: string): Readonly<Record<string, number>> {
  return Object.fromEntries(
    wordsOf(text).map((pair) => {
      const [bait = '', count, ...more] = pair.split('=').map((part) => part.trim());
      if (bait === '' || count === undefined || more.length > 0) {
        throw new UserError(`--held "${pair}" should read bait=count, e.g. --held mullet=6.`, 2);
      }
      return [bait, wholeNumber(`--held ${bait}`, count)];
    }),
  );
}

function wordsOf(text: string): string[] {
  const words = text.split(',').map((word) => word.trim());
  return [...new Set(words.filter((word) => word !== ''))];
}
