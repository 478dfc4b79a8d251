import type { IdentifyingValues } from './identifying-values.ts';
import { coordinatesIn, type FoundCoordinate } from './scan-coordinates.ts';

/** Two decimals are about a kilometre, and as likely a number of another kind. */
const TELLING_UNIT = 0.005;

/**
 * Coordinates in a text that are those of the log: to three decimals (or a tenth of a minute) by
 * themselves, to two where a sign or a letter marks them or latitude and longitude of one place both
 * stand in the text.
 */
export function positionsIn(
  text: string,
  { positions }: Pick<IdentifyingValues, 'positions'>,
  decimalComma: boolean,
): string[] {
  const found = coordinatesIn(text, decimalComma);
  if (found.length === 0) return [];
  const hits = positions.flatMap(({ lat, lon }) => {
    const ofLat = found.filter((one) => isSame(one, lat));
    const ofLon = found.filter((one) => isSame(one, lon));
    const isPair = ofLat.length > 0 && ofLon.length > 0;
    return [...ofLat, ...ofLon].filter((one) => isPair || one.isMarked || one.unit < TELLING_UNIT);
  });
  return [...new Set(hits.map((hit) => hit.text))];
}

/** Rounded or cut off at the last digit written, both are the log's own coordinate. */
function isSame({ degrees, unit }: FoundCoordinate, own: number): boolean {
  return Math.abs(degrees - Math.abs(own)) < unit * 0.999 + 1e-9;
}
