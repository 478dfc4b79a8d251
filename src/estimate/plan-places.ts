import { type Refusal, refuse } from '../base/estimate.ts';
import { type Position, REACHES, type Reach, type Side } from '../settings/settings.ts';
import type { FactorName } from '../tally/factors.ts';
import type { Question } from '../tally/question.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';

/** Lines that fish alike but for their side, so that the two levels can change places on them. */
export interface PlanPlace {
  /** null: the spread has no reach with lines on both sides, and whole sides change. */
  readonly reach: Reach | null;
  /** Names of positions, in the order of the settings; at least one each. */
  readonly port: readonly string[];
  readonly starboard: readonly string[];
}

const NO_SIDES =
  'The two are to change sides, and the positions in season.yaml (or those that the log has fished) ' +
  'are not on both sides. Name the positions with their side, port and starboard, and log them.';

/**
 * Where the two levels are fished: the reaches that have lines on both sides, else the two sides
 * whole. Positions that a log with positions never fished are left out. Two rods need one place
 * only, the one with the most bites.
 */
export function planPlaces(
  season: TidySeason,
  factor: FactorName,
  { only }: Pick<Question, 'only'>,
): readonly PlanPlace[] | Refusal {
  const fished = fishedPositions(season);
  const asked = season.log.settings.positions.filter(
    ({ name, reach, side }) =>
      (only.position?.includes(name) ?? true) &&
      (only.reach?.includes(reach) ?? true) &&
      (only.side?.includes(side) ?? true),
  );
  const met = asked.filter(({ name }) => fished.has(name));
  const positions = met.length > 0 ? met : asked;
  const byReach = REACHES.map((reach) =>
    placeOf(
      reach,
      positions.filter((position) => position.reach === reach),
    ),
  ).filter(isTwoSided);
  const places = byReach.length > 0 ? byReach : [placeOf(null, positions)].filter(isTwoSided);
  if (places.length === 0) return refuse(NO_SIDES);
  return factor === 'rod' ? [busiest(places, season)] : places;
}

function placeOf(reach: Reach | null, positions: readonly Position[]): PlanPlace {
  const on = (side: Side) => positions.filter((p) => p.side === side).map((p) => p.name);
  return { reach, port: on('port'), starboard: on('starboard') };
}

function isTwoSided({ port, starboard }: PlanPlace): boolean {
  return port.length > 0 && starboard.length > 0;
}

function fishedPositions({ bites, soaks }: TidySeason): ReadonlySet<string> {
  return new Set([...bites, ...(soaks ?? [])].flatMap(({ position }) => position ?? []));
}

/** The place with the most bites; the first of equals. */
function busiest(places: readonly PlanPlace[], { bites }: TidySeason): PlanPlace {
  const counted = places.map((place) => {
    const here = new Set([...place.port, ...place.starboard]);
    const ofPlace = bites.filter(({ position }) => position !== null && here.has(position));
    return { place, bites: ofPlace.reduce((sum, { count }) => sum + count, 0) };
  });
  return counted.reduce((best, one) => (one.bites > best.bites ? one : best)).place;
}
