import { type Estimate, mapEstimate } from '../base/estimate.ts';
import { formatDecimal } from '../base/format-number.ts';
import { plural } from '../base/words.ts';
import type { LineWear } from '../estimate/wear-by-line-type.ts';
import { fromWearLaw } from '../estimate/wear-power-law.ts';
import type { SpoolLife } from '../estimate/wear-spools.ts';
import type { SpoolRow } from '../read/rows.ts';
import { expectedBreaks } from '../stats/power-law-fit.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import type { RespoolAge } from './respool-age.ts';

/** How far ahead the list looks. */
export const TRIPS_AHEAD = 10;

/** One rod: what is on its reel now, and whether it is time to fill it anew. */
export interface RodDue {
  readonly rod: string;
  readonly spool: SpoolRow;
  readonly age: SpoolLife['age'];
  /** Fights this rod has on an average trip; null: not known. */
  readonly fightsPerTrip: number | null;
  /** Breaks to expect in the next ten trips on this line left alone, and on new line. */
  readonly ahead: Estimate | null;
  readonly aheadOnNewLine: number | null;
  /** null: no respool age is named for its line. */
  readonly isDue: boolean | null;
  /** Trips until it is due at this rod's pace; 0 where it is; null where that is not known. */
  readonly tripsLeft: number | null;
  readonly why: string;
}

/** A rod with fewer trips than this is given the pace of its line type. */
const OWN_PACE_TRIPS = 5;

/**
 * Every rod whose present filling is of a line type in the log: its age, the breaks to expect, due
 * or not, and why. Rods in the order of their names; a filling that was not fished yet has age 0.
 * @param options `advice`: the respool age of each line type; `to`: the last day looked at.
 */
export function rodsDue(
  season: TidySeason,
  lines: readonly LineWear[],
  { advice, to }: { readonly advice: ReadonlyMap<string, RespoolAge>; readonly to: string | null },
): RodDue[] {
  const lives = lines.flatMap((line) => line.spools);
  const filled = season.spools.all.filter(({ date }) => to === null || date <= to);
  const lastOfRod = new Map(filled.map((spool) => [spool.rod, spool]));
  return [...lastOfRod].flatMap(([rod, spool]) => {
    const line = lines.find(({ lineType }) => lineType === spool.line_type);
    const ofRod = lives.filter((life) => life.spool.rod === rod);
    if (line === undefined || ofRod.length === 0) return [];
    const age = ofRod.find((life) => life.spool === spool)?.age ?? NEW_LINE;
    const fightsPerTrip = paceOf(ofRod, line);
    const ofLine = advice.get(spool.line_type) ?? NO_ADVICE;
    const isDue = ofLine.kind === 'advised' ? age.fights >= ofLine.ageFights : null;
    const left = ofLine.kind === 'advised' ? Math.max(0, ofLine.ageFights - age.fights) : null;
    return [
      {
        rod,
        spool,
        age,
        fightsPerTrip,
        ...breaksAhead(line, age.fights, fightsPerTrip),
        isDue,
        tripsLeft: left === null || fightsPerTrip === null ? null : Math.ceil(left / fightsPerTrip),
        why: whyDue(age.fights, ofLine, fightsPerTrip),
      },
    ];
  });
}

const NEW_LINE: SpoolLife['age'] = { fights: 0, trips: 0, lineHours: 0 };
const NO_ADVICE: RespoolAge = {
  kind: 'no-age',
  reason: 'Nothing is known of its wear.',
  isWear: false,
};

function paceOf(lives: readonly SpoolLife[], line: LineWear): number | null {
  const trips = lives.reduce((sum, { age }) => sum + age.trips, 0);
  const fights = lives.reduce((sum, { age }) => sum + age.fights, 0);
  return trips >= OWN_PACE_TRIPS && fights > 0 ? fights / trips : line.fightsPerTrip;
}

/**
 * Λ(now + ten trips) − Λ(now) where wear is told apart from chance; else the plain rate of breaks
 * times the fights to come, whatever the age.
 */
function breaksAhead(
  line: LineWear,
  fights: number,
  fightsPerTrip: number | null,
): Pick<RodDue, 'ahead' | 'aheadOnNewLine'> {
  if (fightsPerTrip === null) return { ahead: null, aheadOnNewLine: null };
  const coming = TRIPS_AHEAD * fightsPerTrip;
  const { law, breaksPerFight } = line;
  if (law.kind === 'fitted' && law.beta.kind === 'estimated' && law.beta.lower > 1) {
    return {
      ahead: fromWearLaw(
        law,
        (drawn) => expectedBreaks(drawn, fights + coming) - expectedBreaks(drawn, fights),
      ),
      aheadOnNewLine: expectedBreaks(law, coming),
    };
  }
  if (breaksPerFight.kind === 'not-estimable') return { ahead: null, aheadOnNewLine: null };
  return {
    ahead: mapEstimate(breaksPerFight, (rate) => coming * rate),
    aheadOnNewLine: coming * breaksPerFight.estimate,
  };
}

function whyDue(fights: number, advice: RespoolAge, fightsPerTrip: number | null): string {
  if (advice.kind === 'no-age') {
    return `${plural(fights, 'fight')} on it; no respool age is named for this line.`;
  }
  const best = `cheapest to respool at about ${formatDecimal(advice.ageFights, 0)}`;
  const now = `${plural(fights, 'fight')} on it; ${best}`;
  const left = advice.ageFights - fights;
  if (left <= 0 || fightsPerTrip === null) return `${now}.`;
  return `${now}, in about ${plural(Math.ceil(left / fightsPerTrip), 'trip')}.`;
}
