import { describe, expect, test } from 'vitest';
import type { CellReader } from '../../src/read/cell.ts';
import { choiceReader } from '../../src/read/cell-choice.ts';
import { clockReader } from '../../src/read/cell-clock.ts';
import { dateReader } from '../../src/read/cell-date.ts';
import { readHookSize } from '../../src/read/cell-hook-size.ts';
import { numberReader } from '../../src/read/cell-number.ts';
import { bearingReader, latLonReader } from '../../src/read/cell-place.ts';
import { positionReader } from '../../src/read/cell-position.ts';
import { COLUMNS_OF_FILE } from '../../src/read/columns-of-file.ts';
import type { DecimalMark } from '../../src/read/number-form.ts';
import { OUTCOME_WORDS } from '../../src/read/words-outcome.ts';
import { DEFAULT_POSITIONS } from '../../src/settings/settings.ts';

const specs = [...COLUMNS_OF_FILE['trips.csv'], ...COLUMNS_OF_FILE['bites.csv']];

function column(name: string, mark: DecimalMark | null = '.') {
  const spec = specs.find((candidate) => candidate.name === name);
  if (spec === undefined) throw new Error(`no column ${name}`);
  return { spec, unit: spec.unit ?? null, mark };
}

/** What cells are read as; a value alone stands for a cell that needed no repair. */
function read<T>(reader: CellReader<T>, ...texts: string[]): (T | null)[] {
  return texts.map((text) => reader(text).value);
}

function codes<T>(reader: CellReader<T>, ...texts: string[]): (string | null)[] {
  return texts.map((text) => reader(text).note?.code ?? null);
}

describe('numbers', () => {
  const depth = numberReader(column('depth_m'));

  test('units are converted by their definitions', () => {
    // NIST Special Publication 811 (2008), appendix B.8: foot 0.3048 m, fathom 1.828 804 m (US
    // survey) or 6 ft = 1.8288 m, mile per hour 0.447 04 m/s, pound 0.453 592 37 kg, inch 2.54 cm.
    expect(read(depth, '100 ft', '10 fathoms')).toEqual([30.48, 18.288]);
    const [mph = 0, kmh = 0, ms = 0] = read(
      numberReader(column('wind_kn')),
      '10 mph',
      '18.52 km/h',
      '5 m/s',
    );
    expect(mph).toBeCloseTo((10 * 0.44704 * 3600) / 1852, 12);
    expect(kmh).toBeCloseTo(10, 12);
    expect(ms).toBeCloseTo((5 * 3600) / 1852, 12);
    const [lb = 0, lbOz = 0] = read(numberReader(column('weight_kg')), '50 lb', '12 lb 8 oz');
    expect(lb).toBeCloseTo(22.6796185, 12);
    expect(lbOz).toBeCloseTo(12.5 * 0.45359237, 12);
    // Water boils at 212 °F and freezes at 32 °F.
    expect(numberReader({ ...column('water_temp_c'), unit: 'f' })('32').value).toBe(0);
  });

  test('a number that may be two things is read by the mark of its file, or not at all', () => {
    expect(read(depth, '1,250', '1.250', '0.250', '12,5')).toEqual([1250, 1.25, 0.25, 12.5]);
    const comma = numberReader(column('depth_m', ','));
    expect(read(comma, '1,250', '1.250', '12,5')).toEqual([1.25, 1250, 12.5]);
    const both = numberReader(column('depth_m', null));
    expect(read(both, '1,250', '1.250', '12,5', '12.5')).toEqual([null, null, 12.5, 12.5]);
    expect(codes(both, '1,250')).toEqual(['number-two-ways']);
  });

  test('a reading that cannot be true leaves the other one', () => {
    // 57,512 degrees of longitude is no place: the comma parts a fraction.
    expect(numberReader(column('lon', null))('57,512').value).toBe(57.512);
    // 1.25 anglers are no crew: the comma groups thousands.
    expect(numberReader(column('count', ','))('1,250').value).toBe(1250);
  });

  test('what is no number is never zero', () => {
    const texts = [
      'abc',
      '10-15',
      '1e309',
      '0x10',
      '12 1/2',
      '30+',
      '--5',
      '1.2.3',
      'Infinity',
      'NaN',
    ];
    expect(read(depth, ...texts)).toEqual(texts.map(() => null));
  });
});

describe('clock times', () => {
  const clock = clockReader('time', { points: true, fractions: false, halfDays: false });

  test('noon and midnight on a twelve-hour clock', () => {
    // By the convention of the US Government Publishing Office Style Manual (2016), 12 p.m. is noon.
    expect(read(clock, '12 am', '12:30 am', '12 pm', '12:30 pm', '1 am', '11:59 pm')).toEqual([
      0, 30, 720, 750, 60, 1439,
    ]);
  });

  test('every way to write half past seven', () => {
    const texts = [
      '7:30',
      '07:30',
      '07:30:00',
      '7.30',
      '0730',
      '730',
      '7h30',
      '07h30min',
      '7:30 a.m.',
      '7:30AM',
      '7：30',
      '07.30.00',
      '~7:30',
    ];
    expect(read(clock, ...texts)).toEqual(texts.map(() => 450));
    expect(codes(clock, '7:30', '07:30', '07:30:00')).toEqual([null, null, null]);
  });

  test('a fraction of the day is that part of 1440 minutes', () => {
    const fraction = clockReader('time', { points: false, fractions: true, halfDays: false });
    expect(read(fraction, '0.5', '0.3125', '0,75', '0.999999')).toEqual([720, 450, 1080, 0]);
  });

  test('what is no time of day', () => {
    const texts = ['24:30', '7:60', '-1:00', 'dawn', '99', '7.75', '7:30-8:00'];
    expect(read(clock, ...texts)).toEqual(texts.map(() => null));
  });
});

describe('dates', () => {
  test('serial days of a spreadsheet', () => {
    // Microsoft's documentation of DATEVALUE and DATE (from memory): 1 January 2008 is day 39448.
    expect(dateReader('date', 'ymd')('39448').value).toBe('2008-01-01');
  });

  test('leap days by the Gregorian rule', () => {
    const dates = ['29/02/2024', '29/02/2023', '29/02/2000', '29.02.2100'];
    expect(read(dateReader('date', 'dmy'), ...dates)).toEqual([
      '2024-02-29',
      null,
      '2000-02-29',
      null,
    ]);
  });

  test('the order of the column decides and is never bent', () => {
    expect(read(dateReader('date', 'dmy'), '05/03/2024', '03/25/2024')).toEqual([
      '2024-03-05',
      null,
    ]);
    expect(read(dateReader('date', 'mdy'), '05/03/2024', '25/03/2024')).toEqual([
      '2024-05-03',
      null,
    ]);
    expect(read(dateReader('date', 'ymd'), '24-03-05', '2024/3/5')).toEqual([
      '2024-03-05',
      '2024-03-05',
    ]);
  });
});

describe('hook sizes', () => {
  test('a size is read only where one size can be meant', () => {
    expect(
      read(readHookSize, '7/0', '2', '10/0', '05/00', '5-0', '5/O', '#7/0', 'Circle 7/0'),
    ).toEqual(['7/0', '2', '10/0', '5/0', '5/0', '5/0', '7/0', '7/0']);
    const unsure = ['50', '5.0', '7/0-8/0', '5-Jan', '2x4', '22/0', '0', '7 0'];
    expect(read(readHookSize, ...unsure)).toEqual(unsure.map(() => null));
  });

  test('May 2000 in each of its dresses was 5/00', () => {
    const dates = [
      'May-00',
      '1-May-00',
      '2000-05-01',
      '2000-05-01 00:00:00',
      '5/1/2000',
      '01.05.2000',
      '36647',
    ];
    expect(read(readHookSize, ...dates)).toEqual(dates.map(() => '5/0'));
  });
});

describe('words', () => {
  test('positions: words in any order, single letters beside a word, two letters', () => {
    const position = positionReader(DEFAULT_POSITIONS);
    expect(
      read(
        position,
        'Port Short',
        'long, stbd',
        'PortLong',
        'P long',
        'short S',
        'SM',
        'FP',
        'flat line port',
      ),
    ).toEqual([
      'port-short',
      'starboard-long',
      'port-long',
      'port-long',
      'starboard-short',
      'starboard-middle',
      'flat-port',
      'flat-port',
    ]);
    // Left and right depend on which way one looks; a lone side or reach is no position.
    expect(codes(position, 'left long', 'port', 'long')).toEqual(Array(3).fill('position-unknown'));
  });

  test('outcomes: no word that may mean two of them', () => {
    const outcome = choiceReader('outcome', OUTCOME_WORDS);
    const unclear = [
      'landed',
      'caught',
      'boated',
      'hooked',
      'lost bait',
      'missed/lost',
      'kept - released',
      'relesed',
    ];
    expect(read(outcome, ...unclear)).toEqual(unclear.map(() => null));
    expect(outcome('relesed').note?.remedy).toBe(
      'Did you mean released? Write missed, lost, released or kept.',
    );
  });
});

describe('places and directions', () => {
  test('degrees, minutes and seconds', () => {
    const lat = latLonReader(column('lat'));
    for (const text of [
      '20°09\'30"S',
      '20 09 30 S',
      'S20 9.5',
      '20-09.5S',
      '20:09:30S',
      '-20 09 30',
    ]) {
      expect(lat(text).value, text).toBeCloseTo(-(20 + 9 / 60 + 30 / 3600), 12);
    }
    expect(read(lat, '20d09m30s', '20.5W', '-20S', '20 75 S', '95 S')).toEqual([
      null,
      null,
      null,
      null,
      null,
    ]);
  });

  test('the sixteen points of the compass', () => {
    const bearing = bearingReader(column('wind_from_deg'));
    expect(read(bearing, 'N', 'NNE', 'south east', 'W', 'NNW', '360', '90°')).toEqual([
      0, 22.5, 135, 270, 337.5, 360, 90,
    ]);
    expect(read(bearing, 'variable', '361', 'E by S')).toEqual([null, null, null]);
  });
});
