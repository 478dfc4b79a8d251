import { convertUnit, dimensionOf, type Unit } from './units.ts';

/** What the colon of `12:30` parts. */
export type Colons = 'hours-minutes' | 'minutes-seconds';

/**
 * Figures made of two units: `1h20`, `1:20:00`, `12 min 30 s`, `12m30s`, `5'11"`, `12 lb 4 oz`.
 * In a column of hours `2:30` is hours and minutes; in a column of minutes or seconds a figure with
 * one colon could be either (`two-ways`) unless the header says which. Returns the value in the
 * column's own unit, or null for other text.
 */
export function compoundValue(
  text: string,
  own: Unit,
  colons: Colons | null = null,
): number | 'two-ways' | null {
  switch (dimensionOf(own)) {
    case 'time':
      return timeValue(text, own, colons ?? (own === 'h' ? 'hours-minutes' : null));
    case 'length':
      return twoUnits(
        text,
        /^(\d+)\s*(?:ft|feet|foot|')\s*(\d+(?:\.\d+)?)\s*(?:in|ins|inch|inches|"|'')?$/i,
        {
          own,
          large: 'ft',
          small: 'in',
        },
      );
    case 'mass':
      return twoUnits(text, /^(\d+)\s*(?:lbs?|pounds?)\s*(\d+(?:\.\d+)?)\s*(?:oz|ounces?)$/i, {
        own,
        large: 'lb',
        small: 'oz',
      });
    default:
      return null;
  }
}

function timeValue(text: string, own: Unit, colons: Colons | null): number | 'two-ways' | null {
  const clock = /^(\d{1,3}):([0-5]\d)(?::([0-5]\d))?$/.exec(text);
  if (clock !== null) {
    if (clock[3] !== undefined) return secondsIn(own, clock[1], clock[2], clock[3]);
    if (colons === null) return 'two-ways';
    return colons === 'hours-minutes'
      ? secondsIn(own, clock[1], clock[2])
      : secondsIn(own, '0', clock[1], clock[2]);
  }
  const words =
    /^(?:(\d+)\s*(?:h|hrs?|hours?)\.?)?\s*(?:(\d+)\s*(?:m|mins?|minutes?|')\.?)?\s*(?:(\d+)\s*(?:s|secs?|seconds?|"|'')\.?)?$/i.exec(
      text,
    );
  if (words !== null && [words[1], words[2], words[3]].filter((part) => part).length > 1) {
    return secondsIn(own, words[1], words[2], words[3]);
  }
  const short = /^(\d+)\s*(?:h|hrs?|hours?)\.?\s*([0-5]?\d)$/i.exec(text);
  if (short !== null) return secondsIn(own, short[1], short[2]);
  const shorter = /^(\d+)\s*(?:m|mins?|minutes?|')\.?\s*([0-5]?\d)$/i.exec(text);
  return shorter === null ? null : secondsIn(own, '0', shorter[1], shorter[2]);
}

function secondsIn(own: Unit, hours = '0', minutes = '0', seconds = '0'): number {
  return convertUnit(Number(hours) * 3600 + Number(minutes) * 60 + Number(seconds), 's', own);
}

function twoUnits(
  text: string,
  pattern: RegExp,
  units: { own: Unit; large: Unit; small: Unit },
): number | null {
  const match = pattern.exec(text);
  if (match === null) return null;
  const large = convertUnit(Number(match[1]), units.large, units.own);
  return large + convertUnit(Number(match[2]), units.small, units.own);
}
