import type { Position, Reach, Settings, Side } from '../settings/settings.ts';

/** Side and reach of a position by its name; both null for a position the settings do not list. */
export function positionLookup(
  settings: Settings,
): (name: string | null) => { readonly side: Side | null; readonly reach: Reach | null } {
  const byName = new Map<string, Position>(settings.positions.map((p) => [p.name, p]));
  const unknown = { side: null, reach: null };
  return (name) => (name === null ? unknown : (byName.get(name) ?? unknown));
}
