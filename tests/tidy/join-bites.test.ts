import { describe, expect, test } from 'vitest';
import { tidySeason } from '../../src/tidy/tidy-season.ts';
import { clock, type LogParts, makeLog } from '../helpers/make-log.ts';

const trip = {
  trip_id: 'T1',
  date: '2026-03-28',
  lines_in: clock('6:00'),
  lines_out: clock('16:00'),
};
const soak = (cells: object) => ({ trip_id: 'T1', position: 'port-long', ...cells });
const bite = (cells: object) => ({
  trip_id: 'T1',
  outcome: 'missed' as const,
  position: 'port-long',
  ...cells,
});
const season = (parts: Partial<LogParts>) => tidySeason(makeLog({ trips: [trip], ...parts }));
const soaksMet = (parts: Partial<LogParts>) => season(parts).bites.map((joined) => joined.soak);

describe('which soak a bite came on', () => {
  const soaks = [
    soak({ time_in: clock('7:00'), time_out: clock('8:00') }),
    soak({ time_in: clock('8:00'), time_out: clock('9:00') }),
    { ...soak({ time_in: clock('7:00'), time_out: clock('12:00') }), position: 'port-short' },
  ];
  test('the one open at its minute, both ends included, the later of two', () => {
    const times = ['6:59', '7:00', '7:30', '8:00', '9:00', '9:01'];
    const bites = times.map((time) => bite({ time: clock(time) }));
    expect(soaksMet({ soaks, bites })).toEqual([null, 0, 0, 1, 1, null]);
  });
  test('none at another position, or without one', () => {
    const bites = [
      bite({ time: clock('7:30'), position: 'pitch' }),
      bite({ time: clock('7:30'), position: null }),
    ];
    expect(soaksMet({ soaks, bites })).toEqual([null, null]);
  });
  test('without a time, the only soak of its trip and position, else none', () => {
    expect(soaksMet({ soaks, bites: [bite({}), bite({ position: 'port-short' })] })).toEqual([
      null,
      2,
    ]);
  });
  test('a soak logged by hours alone is met when it is the only such one', () => {
    const one = [soak({ hours: 4 })];
    const bites = [bite({ time: clock('10:00') }), bite({})];
    expect(soaksMet({ soaks: one, bites })).toEqual([0, 0]);
    expect(soaksMet({ soaks: [...one, soak({ hours: 2 })], bites })).toEqual([null, null]);
  });
  test('after midnight on a night trip, also where lines in was not logged', () => {
    const night = { ...trip, lines_in: clock('19:00'), lines_out: clock('2:00') };
    const late = [soak({ time_in: clock('23:00'), time_out: clock('1:00') })];
    const bites = [bite({ time: clock('0:30') })];
    expect(soaksMet({ trips: [night], soaks: late, bites })).toEqual([0]);
    const unclocked = { ...night, lines_in: null, lines_out: null };
    expect(soaksMet({ trips: [unclocked], soaks: late, bites })).toEqual([0]);
  });
});

describe('what a bite takes from its soak and its spool', () => {
  const spools = [
    { rod: 'R1', date: '2026-01-10', line_type: 'mono', line_class_lb: 20 },
    { rod: 'R1', date: '2026-03-28', line_type: 'braid', line_class_lb: 30 },
    { rod: 'R1', date: '2026-03-29', line_type: 'mono', line_class_lb: 20 },
  ];
  const soaks = [
    soak({ time_in: clock('7:00'), time_out: clock('8:00'), bait: 'mullet', rod: 'R1' }),
  ];
  test('own cells first, then the soak, then the spool that holds from the start of the day', () => {
    const [joined] = season({
      soaks,
      spools,
      bites: [bite({ time: clock('7:30'), hook_size: '6/0' })],
    }).bites;
    expect(joined).toMatchObject({
      bait: 'mullet',
      rod: 'R1',
      hook_size: '6/0',
      leader_lb: null,
      line_type: 'braid',
      line_class_lb: 30,
      from: { bait: 'soak', rod: 'soak', hook_size: 'logged', leader_lb: null, line_type: 'spool' },
    });
  });
  test('where bite and soak disagree the bite stands and a warning names both lines', () => {
    const { bites, account } = season({
      soaks,
      bites: [bite({ time: clock('7:30'), bait: 'scad' })],
    });
    expect(bites[0]?.bait).toBe('scad');
    expect(account.problemCounts).toMatchObject([{ code: 'bite-and-soak-disagree', count: 1 }]);
    expect(account.problems[0]).toMatchObject({
      code: 'bite-and-soak-disagree',
      line: 2,
      column: 'bait',
    });
    expect(account.problems[0]?.text).toContain('soaks.csv line 2');
  });
  test('a bite that meets no soak takes the line of its own rod', () => {
    const [joined] = season({ spools, bites: [bite({ rod: 'R1' })] }).bites;
    expect(joined).toMatchObject({ line_type: 'braid', line_class_lb: 30 });
  });
});

describe('line age', () => {
  const trips = ['2026-03-01', '2026-03-02', '2026-03-05'].map((date, at) => ({
    ...trip,
    trip_id: `T${at + 1}`,
    date,
  }));
  const spools = [
    { rod: 'R1', date: '2026-02-27', line_type: 'mono' },
    { rod: 'R1', date: '2026-03-05', line_type: 'braid' },
  ];
  const soaks = ['T1', 'T2', 'T3'].map((trip_id) => ({
    trip_id,
    position: 'port-long',
    rod: 'R1',
    time_in: clock('7:00'),
    time_out: clock('9:00'),
  }));
  const hooked = (trip_id: string, time: string) =>
    ({ ...bite({ time: clock(time) }), trip_id, outcome: 'lost' }) as const;
  test('counts days, trips, line-hours and fights since the latest spool', () => {
    const { bites, soaks: tidy } = season({
      trips,
      spools,
      soaks,
      bites: [hooked('T1', '7:30'), hooked('T2', '8:30'), hooked('T3', '8:00')],
    });
    const ages = bites.map(({ lineAge }) => [
      lineAge?.days,
      lineAge?.trips,
      lineAge?.lineHours,
      lineAge?.fights,
    ]);
    expect(ages).toEqual([
      [2, 1, 0.5, 1],
      [3, 2, 3.5, 2],
      [0, 1, 1, 1],
    ]);
    expect(tidy?.map((one) => one.lineAge?.lineHours)).toEqual([0, 2, 0]);
  });
  test('is not known before the first spool of the rod', () => {
    const { bites } = season({ soaks, spools: [], trips, bites: [hooked('T1', '7:30')] });
    expect(bites[0]?.lineAge).toBeNull();
  });
});
