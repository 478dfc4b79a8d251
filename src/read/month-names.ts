/** Month names as logs write them, in English, French, Spanish, Portuguese and German. */
const NAMES: readonly (readonly string[])[] = [
  ['january', 'jan', 'janvier', 'janv', 'enero', 'ene', 'janeiro', 'januar'],
  ['february', 'feb', 'febr', 'fevrier', 'fevr', 'fev', 'febrero', 'fevereiro', 'februar'],
  ['march', 'mar', 'mars', 'marzo', 'marco', 'marz', 'mrz'],
  ['april', 'apr', 'avril', 'avr', 'abril', 'abr'],
  ['may', 'mai', 'mayo', 'maio'],
  ['june', 'jun', 'juin', 'junio', 'junho', 'juni'],
  ['july', 'jul', 'juillet', 'juil', 'julio', 'julho', 'juli'],
  ['august', 'aug', 'aout', 'agosto', 'ago'],
  ['september', 'sep', 'sept', 'septembre', 'septiembre', 'setembro', 'set'],
  ['october', 'oct', 'octobre', 'octubre', 'outubro', 'out', 'oktober', 'okt'],
  ['november', 'nov', 'novembre', 'noviembre', 'novembro'],
  ['december', 'dec', 'decembre', 'diciembre', 'dic', 'dezembro', 'dez', 'dezember'],
];

const NUMBER_OF: ReadonlyMap<string, number> = new Map(
  NAMES.flatMap((names, index) => names.map((name): [string, number] => [name, index + 1])),
);

/** The month (1 to 12) that a word names, whatever its case and accents; null for any other word. */
export function monthFromName(word: string): number | null {
  const bare = word.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase().replace(/\.$/, '');
  return NUMBER_OF.get(bare) ?? null;
}
