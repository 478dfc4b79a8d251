import { convertUnit, dimensionOf, type Unit } from './units.ts';

/**
 * Figures made of two units: `1h20`, `1:20:00`, `12 min 30 s`, `12m30s`, `5'11"`, `12 lb 4 oz`.
 * In a column of hours `2:30` is hours and minutes; in a column of minutes or seconds a figure with
 * one colon could be either and is left unread. Returns the value in the column's own unit, or
 * null.
 */
export function compoundValue(text: string, own: Unit): number | null {
  switch (dimensionOf(own)) {
    case 'time':
      return timeValue(text, own);
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

function timeValue(text: string, own: Unit): number | null {
  const clock = /^(\d{1,3}):([0-5]\d)(?::([0-5]\d))?$/.exec(text);
  if (clock !== null) {
    // Hours and minutes, or minutes and seconds? Only a third part or a column of hours tells.
    if (clock[3] === undefined && own !== 'h') return null;
    return secondsIn(own, clock[1], clock[2], clock[3]);
  }
  const words =
    /^(?:(\d+)\s*(?:h|hrs?|hours?)\.?)?\s*(?:(\d+)\s*(?:m|mins?|minutes?|')\.?)?\s*(?:(\d+)\s*(?:s|secs?|seconds?|"|'')\.?)?$/i.exec(
      text,
    );
  if (words !== null && [words[1], words[2], words[3]].filter((part) => part).length > 1) {
    return secondsIn(own, words[1], words[2], words[3]);
  }
  const short = /^(\d+)\s*h\s*([0-5]\d)$/i.exec(text);
  return short === null ? null : secondsIn(own, short[1], short[2], undefined);
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
