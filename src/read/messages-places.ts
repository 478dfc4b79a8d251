import { shownText } from './clean-text.ts';
import type { Message } from './messages-cells.ts';

/** The text is no direction. */
export function bearingUnreadable(column: string, text: string): Message {
  return {
    code: 'bearing-unreadable',
    text: `${column} "${shownText(text)}" is no direction.`,
    remedy: 'Write degrees from 0 to 360, or a point of the compass such as NNE.',
  };
}

/** A point of the compass, or degrees with a sign. */
export function bearingRespelt(column: string, text: string, degrees: number): Message {
  return {
    code: 'bearing-respelt',
    text: `${column} "${shownText(text)}" was read as ${degrees} degrees.`,
    remedy: 'Nothing to do; written in degrees it would need no repair.',
  };
}

/** Degrees and minutes, or a hemisphere letter. */
export function latLonRespelt(column: string, text: string, degrees: number): Message {
  return {
    code: 'lat-lon-respelt',
    text: `${column} "${shownText(text)}" was read as ${Number(degrees.toFixed(6))} degrees.`,
    remedy: 'Nothing to do; written in decimal degrees it would need no repair.',
  };
}
