import type { Random } from '../../src/stats/random.ts';
import { oneOf } from './draws.ts';

// Made up, like everything here; a likeness to anyone's name is chance.
const FIRST = [
  'Ardwen',
  'Belisk',
  'Corvanne',
  'Dellimor',
  'Eskavel',
  'Fennori',
  'Gallivar',
  'Hesterin',
  'Ilvane',
  'Jorrek',
  'Kestiva',
  'Lomund',
  'Marrish',
  'Nevolo',
  'Orvane',
  'Pellix',
  'Rastin',
  'Sabrel',
  'Tovik',
  'Ulmare',
  'Vessla',
  'Wendrith',
  'Yorrin',
  'Zanneth',
];
const LAST = [
  'Arandel',
  'Braskerow',
  'Corsith',
  'Dunvarre',
  'Ellowick',
  'Farrowmere',
  'Gintash',
  'Hollumbey',
  'Irrasane',
  'Jeltovar',
  'Kammerly',
  'Lodrath',
  'Mirrowen',
  'Norvash',
  'Ostrellin',
  'Perrigane',
  'Quorrel',
  'Rothwane',
  'Sandermoor',
  'Tallivar',
  'Umberay',
  'Varricane',
  'Wexholme',
  'Yarrowgate',
];

/** The anglers of one trip: invented names, none twice. */
export function invitedAnglers(random: Random, count: number): string[] {
  const names = new Set<string>();
  while (names.size < count) names.add(`${oneOf(random, FIRST)} ${oneOf(random, LAST)}`);
  return [...names];
}
