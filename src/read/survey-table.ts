import { canBeThousands } from './cell-number.ts';
import { cleanValue } from './clean-text.ts';
import { type ClockStyle, ClockStyleSurvey } from './clock-style.ts';
import type { ColumnSpec } from './column-spec.ts';
import { type DateOrder, DateOrderSurvey } from './date-order.ts';
import type { DecimalMark } from './number-form.ts';
import { numberForm } from './number-form.ts';
import { type Table, withoutBlankEnd } from './open-table.ts';
import { isRowOf } from './row-shape.ts';

/** What only whole columns can tell of how a file is written. */
export interface TableStyle {
  /** null: both marks part fractions in this file. */
  readonly mark: DecimalMark | null;
  readonly dateOrder: ReadonlyMap<string, DateOrder>;
  readonly clockStyle: ReadonlyMap<string, ClockStyle>;
}

/** Texts remembered per column so that a repeated one is looked at once. */
const MOST_REMEMBERED = 5000;

/**
 * Reads a file once, from its first row to its last, to decide what single cells cannot: the order
 * of day and month, the decimal mark, the style of clock times. `told` is `date_order` of the
 * settings. Throws a `UserError` (exit code 3) where dates stay open.
 */
export async function surveyTable(
  table: Table,
  told: 'ymd' | 'dmy' | 'mdy' | null,
): Promise<TableStyle> {
  const marks = new MarkSurvey(table.delimiter);
  const dates = new Map<string, DateOrderSurvey>();
  const clocks = new Map<string, ClockStyleSurvey>();
  const watched: { index: number; look: (text: string, line: number) => void }[] = [];
  for (const [index, { meaning }] of table.plan.columns.entries()) {
    if (meaning === null) continue;
    const { name, kind } = meaning.spec;
    if (kind === 'date') {
      const survey = new DateOrderSurvey();
      dates.set(name, survey);
      watched.push({ index, look: once((text, line) => survey.add(text, line)) });
    } else if (kind === 'clock') {
      const survey = new ClockStyleSurvey();
      clocks.set(name, survey);
      watched.push({ index, look: once((text) => survey.add(text)) });
    } else if (kind === 'number') {
      watched.push({ index, look: once((text) => marks.add(text, meaning.spec)) });
    }
  }
  const width = table.plan.columns.length;
  for await (const batch of table.records(isRowOf(table.plan))) {
    for (const { cells, line, quotes } of batch) {
      if (quotes === 'broken' || withoutBlankEnd(cells, width).length > width) continue;
      for (const { index, look } of watched) {
        const text = cells[index];
        if (text !== undefined && text !== '' && text.length < 100) look(text, line);
      }
    }
  }
  const headerOf = (column: string) =>
    table.plan.columns[table.plan.indexOf.get(column) ?? 0]?.header ?? column;
  return {
    mark: marks.mark(),
    dateOrder: new Map(
      [...dates].map(([column, survey]) => [
        column,
        survey.order(told, { name: table.name, header: headerOf(column) }),
      ]),
    ),
    clockStyle: new Map([...clocks].map(([column, survey]) => [column, survey.style()])),
  };
}

/** Looks at each text of a column once, as long as there are not too many of them. */
function once(look: (text: string, line: number) => void) {
  const seen = new Set<string>();
  return (text: string, line: number): void => {
    if (seen.has(text)) return;
    if (seen.size < MOST_REMEMBERED) seen.add(text);
    look(text, line);
  };
}

/** Gathers which mark parts fractions in the numbers of a file. */
class MarkSurvey {
  readonly #delimiter: string;
  #points = 0;
  #commas = 0;
  #openPoints = 0;

  constructor(delimiter: string) {
    this.#delimiter = delimiter;
  }

  add(raw: string, spec: ColumnSpec): void {
    const form = numberForm(cleanValue(raw).replace(/\s*[^\d.,\s]*$/, ''));
    if (form === null || form.kind === 'plain') return;
    const decides = form.kind === 'sure' || !canBeThousands(form.asThousands, spec);
    if (!decides) {
      if (form.mark === '.' && !spec.whole) this.#openPoints++;
    } else if (form.mark === '.') this.#points++;
    else this.#commas++;
  }

  /**
   * With no number to decide it, a file parted by semicolons has decimal commas, because that is
   * why it is parted so; unless points stand where commas never do.
   */
  mark(): DecimalMark | null {
    if (this.#commas > 0 && this.#points > 0) return null;
    if (this.#commas > 0) return ',';
    if (this.#points > 0) return '.';
    return this.#delimiter === ';' && this.#openPoints === 0 ? ',' : '.';
  }
}
