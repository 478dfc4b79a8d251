/** The entry of a table of the world; a missing one is a mistake in the world. */
export function at<T>(table: Readonly<Record<string, T>>, key: string): T {
  const entry = table[key];
  if (entry === undefined) throw new Error(`This world knows no ${key}.`);
  return entry;
}
