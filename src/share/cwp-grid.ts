/** Sizes of a cell in degrees; half a degree has no code of seven digits and goes by its corner. */
export const GRID_SIZES = [0.5, 1, 5, 10, 20, 30] as const;
/** One of the sizes. */
export type GridSize = (typeof GRID_SIZES)[number];

const QUADRANTS = ['NE', 'SE', 'SW', 'NW'] as const;
/** North or south, east or west of 0, 0. */
export type Quadrant = (typeof QUADRANTS)[number];

/** A square of the grid by its corner nearest 0°, 0°, in degrees without sign. */
export interface GridCell {
  readonly sizeDeg: GridSize;
  readonly quadrant: Quadrant;
  readonly cornerLat: number;
  readonly cornerLon: number;
}

/** Digit of the code for each size the official table holds. */
const SIZE_DIGITS: ReadonlyMap<GridSize, string> = new Map([
  [1, '5'],
  [5, '6'],
  [10, '7'],
  [20, '8'],
  [30, '9'],
]);

/**
 * The cell that holds a point. A point on a line goes to the cell nearer 0°, 0°, which also keeps
 * 90° and 180° inside the grid; on the equator or the meridian itself it counts as north or east.
 * Source: FAO CWP Handbook, areal grid (restated); the side of a line is a convention.
 *
 * @param lat decimal degrees, -90 to 90, south negative.
 * @param lon decimal degrees, -180 to 180, west negative.
 */
export function cellAt(lat: number, lon: number, sizeDeg: GridSize): GridCell {
  const quadrant = `${lat >= 0 ? 'N' : 'S'}${lon >= 0 ? 'E' : 'W'}` as Quadrant;
  const cornerLat = cornerOf(Math.abs(lat), sizeDeg);
  return { sizeDeg, quadrant, cornerLat, cornerLon: cornerOf(Math.abs(lon), sizeDeg) };
}

/**
 * The seven-digit code: size, quadrant, latitude and longitude of the corner nearest 0°, 0°; null
 * for half a degree, which seven digits cannot hold.
 * Source: FAO CWP areal grid, official table of 1 to 30 degree cells.
 */
export function cellCode({ sizeDeg, quadrant, cornerLat, cornerLon }: GridCell): string | null {
  const digit = SIZE_DIGITS.get(sizeDeg);
  if (digit === undefined) return null;
  const degrees = (corner: number, places: number) => String(corner).padStart(places, '0');
  return `${digit}${QUADRANTS.indexOf(quadrant) + 1}${degrees(cornerLat, 2)}${degrees(cornerLon, 3)}`;
}

/** The cell that a seven-digit code names; null for a text that is no code of the grid. */
export function cellFromCode(code: string): GridCell | null {
  const match = /^([5-9])([1-4])(\d{2})(\d{3})$/.exec(code);
  if (match === null) return null;
  const [, digit, quarter, lat, lon] = match;
  const [sizeDeg] = [...SIZE_DIGITS].find(([, known]) => known === digit) ?? [];
  const quadrant = QUADRANTS[Number(quarter) - 1];
  const [cornerLat, cornerLon] = [Number(lat), Number(lon)];
  if (sizeDeg === undefined || quadrant === undefined) return null;
  const onGrid = cornerLat % sizeDeg === 0 && cornerLon % sizeDeg === 0;
  const onEarth = cornerLat < 90 && cornerLon < 180;
  return onGrid && onEarth ? { sizeDeg, quadrant, cornerLat, cornerLon } : null;
}

/** One text for one cell, to group by. */
export function cellKey({ sizeDeg, quadrant, cornerLat, cornerLon }: GridCell): string {
  return `${sizeDeg}/${quadrant}/${cornerLat}/${cornerLon}`;
}

function cornerOf(degrees: number, sizeDeg: GridSize): number {
  return Math.max(0, Math.ceil(degrees / sizeDeg) - 1) * sizeDeg;
}
