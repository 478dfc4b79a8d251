import { basename } from 'node:path';
import { groupBy } from '../base/group-by.ts';
import { UserError } from '../base/problem.ts';
import { listWords } from '../base/words.ts';
import type { Settings } from '../settings/settings.ts';
import { type CellReader, plain } from './cell.ts';
import { dateReader } from './cell-date.ts';
import { readHookSize } from './cell-hook-size.ts';
import { positionReader } from './cell-position.ts';
import { readWord, vocabularyReader } from './cell-word.ts';
import { cleanValue, shownText } from './clean-text.ts';
import { DateOrderSurvey } from './date-order.ts';
import { type ScheduleRow, scheduleTable } from './schedule-table.ts';

/** A schedule as the crew gave it back. */
export interface ReadSchedule {
  /** The column that says what is fished, under a factor's name. */
  readonly factor: string;
  /** In the order of their numbers. */
  readonly trips: readonly ScheduledTrip[];
}

/** One trip of it, and when it was made. */
export interface ScheduledTrip {
  readonly tripNumber: number;
  readonly block: string;
  /** ISO; null: not filled in. */
  readonly date: string | null;
  readonly tripId: string | null;
  readonly lines: readonly ScheduledLine[];
}

/** What one line, or with a position of null the whole trip, was to fish. */
export interface ScheduledLine {
  readonly position: string | null;
  readonly level: string;
}

/**
 * Reads a schedule that `plan` wrote and the crew filled in, perhaps with a spreadsheet between:
 * other delimiters and encodings, dates in the log's own order. A date or a trip_id in one row of a
 * trip holds for the whole trip.
 * @param factors names that the column of levels may have.
 * @throws UserError (exit 2) that names file, line and column; exit 3 for dates whose order is open.
 */
export async function readSchedule(
  path: string,
  settings: Settings,
  factors: readonly string[],
): Promise<ReadSchedule> {
  const name = basename(path);
  const { headers, rows } = await scheduleTable(path, name);
  const factor = factorColumn(headers, factors, name);
  const reader = new ScheduleReader(name, factor, readersFor(rows, { name, factor, settings }));
  const read = rows.map((row) => reader.read(row));
  const trips = [...groupBy(read, (row) => row.tripNumber)]
    .map(([tripNumber, ofTrip]) => reader.trip(tripNumber, ofTrip))
    .sort((a, b) => a.tripNumber - b.tripNumber);
  return { factor, trips };
}

function factorColumn(headers: readonly string[], factors: readonly string[], name: string) {
  const [factor, ...others] = factors.filter((one) => headers.includes(one));
  const heads = ['trip_number', 'block', 'date', 'trip_id'];
  const missing = heads.filter((head) => !headers.includes(head));
  if (factor !== undefined && others.length === 0 && missing.length === 0) return factor;
  const lacks = missing.length > 0 ? listWords(missing) : `one column out of ${listWords(factors)}`;
  throw new UserError(
    `${name} is no schedule that plan wrote: it lacks ${lacks}. Give the schedule.csv of the plan.`,
    2,
  );
}

type Readers = Readonly<Record<string, CellReader<string>>>;

function readersFor(
  rows: readonly ScheduleRow[],
  { name, factor, settings }: { name: string; factor: string; settings: Settings },
): Readers {
  const survey = new DateOrderSurvey();
  for (const { line, cells } of rows) survey.add(cells.date ?? '', line);
  const order = survey.order(settings.date_order, { name, header: 'date' });
  return {
    date: dateReader('date', order),
    position: positionReader(settings.positions),
    trip_id: readWord,
    block: readWord,
    [factor]: levelReader(factor, settings),
  };
}

/** Reads a level as the log's own column would. */
function levelReader(factor: string, settings: Settings): CellReader<string> {
  if (factor === 'hook_size') return readHookSize;
  if (factor === 'line_type') return vocabularyReader(factor, settings.line_types);
  if (factor === 'bait') return vocabularyReader(factor, settings.baits);
  return factor.endsWith('_lb') ? readPounds : readWord;
}

const readPounds: CellReader<string> = (text) => {
  const bare = cleanValue(text)
    .replace(/\s*lbs?$/i, '')
    .replace(',', '.');
  return /^\d+(?:\.\d+)?$/.test(bare) ? plain(String(Number(bare))) : readWord(text);
};

interface ReadRow extends Omit<ScheduledTrip, 'lines'> {
  readonly line: number;
  readonly scheduled: ScheduledLine;
}

/** Reads the rows of one schedule, and says in which line one cannot be read. */
class ScheduleReader {
  constructor(
    private readonly name: string,
    private readonly factor: string,
    private readonly readers: Readers,
  ) {}

  read(row: ScheduleRow): ReadRow {
    const number = row.cells.trip_number ?? '';
    const tripNumber = Number(cleanValue(number));
    if (!Number.isSafeInteger(tripNumber) || tripNumber < 1) {
      const trouble = `trip_number "${shownText(number)}" is no number of a trip.`;
      this.#refuse(row.line, `${trouble} Leave that column as plan wrote it.`);
    }
    const level = this.#cell(row, this.factor);
    if (level === null) {
      this.#refuse(
        row.line,
        `${this.factor} is empty. Leave what was planned as plan wrote it; what was fished instead belongs in the log.`,
      );
    }
    return {
      line: row.line,
      tripNumber,
      block: this.#cell(row, 'block') ?? '',
      date: this.#cell(row, 'date'),
      tripId: this.#cell(row, 'trip_id'),
      scheduled: { position: this.#cell(row, 'position'), level },
    };
  }

  trip(tripNumber: number, rows: readonly ReadRow[]): ScheduledTrip {
    const only = (column: string, of: (row: ReadRow) => string | null): string | null => {
      const told = rows.filter((row) => of(row) !== null);
      const [first] = told;
      const other = told.find((row) => first !== undefined && of(row) !== of(first));
      if (first === undefined) return null;
      if (other === undefined) return of(first);
      return this.#refuse(
        other.line,
        `trip ${tripNumber} has two of ${column}, ${of(first)} and ${of(other)}. Keep the right one.`,
      );
    };
    const lines = rows.map((row) => row.scheduled);
    const twice = rows.find(({ scheduled }, at) =>
      lines.slice(0, at).some((before) => before.position === scheduled.position),
    );
    if (twice !== undefined) {
      const place = twice.scheduled.position ?? 'the whole trip';
      this.#refuse(twice.line, `trip ${tripNumber} has ${place} twice. Take the second row out.`);
    }
    return {
      tripNumber,
      block: rows[0]?.block ?? '',
      date: only('date', (row) => row.date),
      tripId: only('trip_id', (row) => row.tripId),
      lines,
    };
  }

  #cell({ line, cells }: ScheduleRow, column: string): string | null {
    const text = cells[column] ?? '';
    const read = text === '' ? null : this.readers[column]?.(text);
    if (read == null) return null;
    return read.value ?? this.#refuse(line, `${read.note?.text} ${read.note?.remedy}`);
  }

  #refuse(line: number, trouble: string): never {
    throw new UserError(`${this.name}, line ${line}: ${trouble}`, 2);
  }
}
