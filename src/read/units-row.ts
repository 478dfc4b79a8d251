import type { PlannedColumn } from './header-plan.ts';
import { dimensionOf, type Unit, unitFromWord } from './units.ts';

/** Words that stand in a row of units below columns without one. */
const FORMATS =
  /^(?:hh?:mm(?::ss)?|d+[-/.]m+[-/.]y+|m+[-/.]d+[-/.]y+|y+[-/.]m+[-/.]d+|#|no\.?|n|count|text|id|name|deg|°|degrees|decimal degrees|yes\/no|y\/n|x\/0)$/i;

/**
 * The units that a row right below the header gives to its columns, or null where the row is an
 * entry: in a row of units every filled cell is a unit of its column or the name of a format, and
 * at least one is a unit.
 */
export function unitsRow(
  columns: readonly PlannedColumn[],
  cells: readonly string[],
): ReadonlyMap<number, Unit> | null {
  const units = new Map<number, Unit>();
  for (const [index, cell] of cells.entries()) {
    const text = cell
      .trim()
      .replace(/^[([](.*)[)\]]$/, '$1')
      .trim();
    if (text === '') continue;
    const spec = columns[index]?.meaning?.spec;
    const unit = spec?.unit === undefined ? null : unitFromWord(text, dimensionOf(spec.unit));
    if (unit !== null) units.set(index, unit);
    else if (!FORMATS.test(text)) return null;
  }
  return units.size === 0 ? null : units;
}

/** The columns in the units of such a row; a unit in the header itself goes first. */
export function withUnits(
  columns: readonly PlannedColumn[],
  units: ReadonlyMap<number, Unit>,
): readonly PlannedColumn[] {
  return columns.map((column, index) => {
    const unit = units.get(index);
    if (unit === undefined || !column.meaning?.unitAssumed) return column;
    return { ...column, meaning: { ...column.meaning, unit, unitAssumed: false } };
  });
}
