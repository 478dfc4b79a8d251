import type { Settings } from '../settings/settings.ts';

/**
 * English names that stand for one code wherever they are fished. Names that mean one species in one
 * ocean and another elsewhere (sailfish, blue marlin, spanish mackerel) are left out: the owner
 * says which it is.
 * Source: FAO ASFIS list of species for fishery statistics purposes, 3-alpha codes.
 */
const CODE_OF_NAME: ReadonlyMap<string, string> = new Map([
  ['atlantic sailfish', 'SAI'],
  ['indo-pacific sailfish', 'SFA'],
  ['pacific blue marlin', 'BLZ'],
  ['atlantic white marlin', 'WHM'],
  ['black marlin', 'BLM'],
  ['striped marlin', 'MLS'],
  ['longbill spearfish', 'SPF'],
  ['shortbill spearfish', 'SSP'],
  ['roundscale spearfish', 'RSP'],
  ['swordfish', 'SWO'],
  ['common dolphinfish', 'DOL'],
  ['pompano dolphinfish', 'CFW'],
  ['wahoo', 'WAH'],
  ['king mackerel', 'KGM'],
  ['narrow-barred spanish mackerel', 'COM'],
  ['atlantic spanish mackerel', 'SSM'],
  ['yellowfin tuna', 'YFT'],
  ['yellowfin', 'YFT'],
  ['blackfin tuna', 'BLF'],
  ['bigeye tuna', 'BET'],
  ['albacore', 'ALB'],
  ['skipjack tuna', 'SKJ'],
  ['skipjack', 'SKJ'],
  ['little tunny', 'LTA'],
  ['kawakawa', 'KAW'],
  ['black skipjack', 'BKJ'],
  ['atlantic bonito', 'BON'],
  ['cobia', 'CBA'],
  ['great barracuda', 'GBA'],
  ['pickhandle barracuda', 'BAC'],
  ['rainbow runner', 'RRU'],
  ['greater amberjack', 'AMB'],
  ['crevalle jack', 'CVJ'],
]);

/** Billfish of a kind that the log does not tell. Source: FAO ASFIS, "Marlins, sailfishes, etc. nei". */
const BILLFISH = 'BIL';
/** Fish of a kind that the log does not tell. Source: FAO ASFIS, "Marine fishes nei" (from memory). */
const ANY_FISH = 'MZZ';

/** Where a species' code came from: the settings, its plain name, or nowhere better. */
export interface SpeciesCode {
  readonly code: string;
  readonly from: 'settings' | 'name' | 'group';
}

/**
 * The three-letter code of a species as a log names it: from the settings; else from its name where
 * that means one species the world over; else the group it surely belongs to.
 *
 * @param word null where the fish was hooked and never seen.
 */
export function speciesCode(word: string | null, species: Settings['species']): SpeciesCode {
  if (word === null) return { code: ANY_FISH, from: 'group' };
  const own = species[word]?.code ?? null;
  if (own !== null) return { code: own, from: 'settings' };
  const plain = word.toLowerCase().replace(/[\s_]+/g, ' ');
  const named = CODE_OF_NAME.get(plain);
  if (named !== undefined) return { code: named, from: 'name' };
  const isBillfish = /marlin|sailfish|spearfish|billfish/.test(plain);
  return { code: isBillfish ? BILLFISH : ANY_FISH, from: 'group' };
}
