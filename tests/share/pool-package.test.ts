import { createHash } from 'node:crypto';
import { cpSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { describe, expect, test } from 'vitest';
import { refuseDoubleCounts } from '../../src/share/pool-double-counts.ts';
import { readPoolPackage } from '../../src/share/pool-package.ts';
import { runCommand } from '../helpers/run-command.ts';
import { fleetFiles, fleetTrips, logFolder } from './fleet-log.ts';

const SAMPLES = resolve(import.meta.dirname, '../../data-samples/packages');

/** A copy of a sample package, to be spoilt. */
function copyOf(name = 'linnet-quay'): string {
  const folder = join(mkdtempSync(join(tmpdir(), 'pool-')), name);
  cpSync(join(SAMPLES, name), folder, { recursive: true });
  return folder;
}

type Descriptor = {
  linehours: Record<string, unknown>;
  resources: { name: string; path: string; hash: string; schema: { fields: { name: string }[] } }[];
};

function editDescriptor(folder: string, edit: (descriptor: Descriptor) => void): void {
  const path = join(folder, 'datapackage.json');
  const descriptor: Descriptor = JSON.parse(readFileSync(path, 'utf8'));
  edit(descriptor);
  writeFileSync(path, JSON.stringify(descriptor));
}

/** Changes a table and sets its checksum right, as somebody who knows the format might. */
function forge(folder: string, table: string, edit: (text: string) => string): void {
  const path = join(folder, `${table}.csv`);
  const text = edit(readFileSync(path, 'utf8'));
  writeFileSync(path, text);
  const hash = `sha256:${createHash('sha256').update(text).digest('hex')}`;
  editDescriptor(folder, ({ resources }) => {
    for (const resource of resources) if (resource.name === table) resource.hash = hash;
  });
}

describe('a package before it is pooled', () => {
  test('a sound one gives its rates, months and vessels', async () => {
    const sound = await readPoolPackage(join(SAMPLES, 'linnet-quay'));
    expect(sound).toMatchObject({ label: 'linnet-quay', licence: 'CC-BY-4.0' });
    expect(sound.about).toMatchObject({ tier: 'cells', gear: 'LHP', trips: 50 });
    expect([...sound.months].sort()).toEqual([
      '2024-11',
      '2024-12',
      '2025-01',
      '2025-02',
      '2025-03',
    ]);
    expect(sound.rates).toHaveLength(8);
    const named = await readPoolPackage(join(SAMPLES, 'linnet-quay', 'datapackage.json'));
    expect(named).toEqual(sound);
  });

  const spoil = (name: string, edit: (folder: string) => void, message: RegExp) =>
    [name, edit, message] as const;

  test.each([
    spoil(
      'a changed cell',
      (folder) => {
        const path = join(folder, 'effort.csv');
        writeFileSync(path, readFileSync(path, 'utf8').replace('LHP,10,', 'LHP,11,'));
      },
      /"effort\.csv" in .* is not as it was when it left: its checksum differs/,
    ),
    spoil(
      'line ends changed by a spreadsheet',
      (folder) => {
        const path = join(folder, 'rates.csv');
        writeFileSync(path, readFileSync(path, 'utf8').replaceAll('\r\n', '\n'));
      },
      /spreadsheets change a file when they save it/,
    ),
    spoil(
      'a file that is not there',
      (folder) => rmSync(join(folder, 'catch.csv')),
      /lacks "catch\.csv"/,
    ),
    spoil(
      'no descriptor',
      (folder) => rmSync(join(folder, 'datapackage.json')),
      /There is no package at/,
    ),
    spoil(
      'half a descriptor',
      (folder) => {
        writeFileSync(join(folder, 'datapackage.json'), '{"linehours": {');
      },
      /no sound JSON/,
    ),
    spoil(
      'another kind of package',
      (folder) => {
        writeFileSync(join(folder, 'datapackage.json'), '{"name": "x", "resources": []}');
      },
      /not one made by "linehours share"/,
    ),
    spoil(
      'a later version',
      (folder) => {
        editDescriptor(folder, ({ linehours }) =>
          Object.assign(linehours, { schema: 'linehours/package@2' }),
        );
      },
      /says "linehours\/package@2", and this version reads linehours\/package@1/,
    ),
    spoil(
      'a descriptor with a strange tier',
      (folder) => {
        editDescriptor(folder, ({ linehours }) => Object.assign(linehours, { tier: 'rods' }));
      },
      /linehours\.tier is not what a package of linehours has there/,
    ),
    spoil(
      'a path out of the folder',
      (folder) => {
        editDescriptor(folder, ({ resources }) => {
          for (const resource of resources)
            if (resource.name === 'catch') resource.path = '../../../etc/hostname';
        });
      },
      /(names a file outside its own folder|lacks)/,
    ),
    spoil(
      'a link out of the folder',
      (folder) => {
        rmSync(join(folder, 'catch.csv'));
        symlinkSync(join(SAMPLES, 'sable-roads', 'catch.csv'), join(folder, 'catch.csv'));
      },
      /names a file outside its own folder/,
    ),
    spoil(
      'a cell that is no number',
      (folder) => {
        forge(folder, 'effort', (text) => text.replace('LHP,10,', 'LHP,ten,'));
      },
      /effort\.csv line 2, trips: "ten" is not a number/,
    ),
    spoil(
      'a count below what there can be',
      (folder) => {
        forge(folder, 'effort', (text) => text.replace('LHP,10,', 'LHP,-1,'));
      },
      /effort\.csv line 2, trips: "-1" is not 1 or more/,
    ),
    spoil(
      'a code that is none',
      (folder) => {
        forge(folder, 'catch', (text) => text.replace(',BLM,', ',marlin,'));
      },
      /catch\.csv line 2, species: "marlin" is not of its pattern/,
    ),
    spoil(
      'a row twice',
      (folder) => {
        forge(folder, 'effort', (text) => `${text}${text.split('\r\n')[1]}\r\n`);
      },
      /effort\.csv line 7: a second row/,
    ),
    spoil(
      'a column too many',
      (folder) => {
        forge(folder, 'rates', (text) => text.replace('design_effect', 'design_effect,x'));
      },
      /rates\.csv/,
    ),
    spoil(
      'fish of a row that is not there',
      (folder) => {
        forge(folder, 'effort', (text) => text.split('\r\n').toSpliced(1, 1).join('\r\n'));
      },
      /catch\.csv line 2: it points to a row of effort that is not there/,
    ),
    spoil(
      'rates that are not those of the rows',
      (folder) => {
        forge(folder, 'rates', (text) => text.replace('hookup_rate,440', 'hookup_rate,400'));
      },
      /hooked and bites in rates\.csv are not those of its rows/,
    ),
    spoil(
      'more hooked than bites',
      (folder) => {
        forge(folder, 'rates', (text) =>
          text.replace('bite_to_boat,366,500', 'bite_to_boat,566,500'),
        );
      },
      /the figures of bite_to_boat/,
    ),
    spoil(
      'no rates at all',
      (folder) => {
        editDescriptor(folder, (descriptor) => {
          descriptor.resources = descriptor.resources.filter(({ name }) => name !== 'rates');
        });
      },
      /has no table "rates"/,
    ),
    spoil(
      'more trips told than there are',
      (folder) => {
        editDescriptor(folder, ({ linehours }) => Object.assign(linehours, { trips: 500 }));
      },
      /the trips and vessels that its datapackage\.json tells are not those of its rows/,
    ),
    spoil(
      'a vessel taken out, so that it could count twice',
      (folder) => {
        editDescriptor(folder, ({ linehours }) => Object.assign(linehours, { vessels: [] }));
      },
      /the trips and vessels that its datapackage\.json tells are not those of its rows/,
    ),
    spoil(
      'counts with noise',
      (folder) => {
        editDescriptor(folder, ({ linehours }) =>
          Object.assign(linehours, { noise: { epsilon: 1 } }),
        );
      },
      /carries noise/,
    ),
  ])('%s is refused with the place and the way on', async (_, edit, message) => {
    const folder = copyOf();
    edit(folder);
    await expect(readPoolPackage(folder)).rejects.toMatchObject({
      exitCode: 3,
      message: expect.stringMatching(message),
    });
  });

  test('rates of trips one by one must be those of the trips and their fish', async () => {
    const folder = join(mkdtempSync(join(tmpdir(), 'pool-')), 'trips');
    const log = logFolder(fleetFiles(fleetTrips()));
    const { exitCode } = await runCommand('share', log, '--out', folder, '--tier', 'trips');
    expect(exitCode).toBe(0);
    await expect(readPoolPackage(folder)).resolves.toMatchObject({ about: { tier: 'trips' } });
    forge(folder, 'rates', (text) =>
      text.replace(/hookup_rate,(\d+)/, (_, n) => `hookup_rate,${Number(n) - 1}`),
    );
    await expect(readPoolPackage(folder)).rejects.toThrow(/hooked and bites in rates\.csv are not/);
  });

  test('a trip pseudonym twice', async () => {
    const folder = join(mkdtempSync(join(tmpdir(), 'pool-')), 'trips');
    const log = logFolder(fleetFiles(fleetTrips()));
    await runCommand('share', log, '--out', folder, '--tier', 'trips');
    forge(folder, 'trips', (text) => `${text}${text.split('\r\n')[1]}\r\n`);
    await expect(readPoolPackage(folder)).rejects.toThrow(/trips\.csv line \d+: a second row/);
  });

  test('a file in place of a package', async () => {
    const file = join(copyOf(), 'effort.csv');
    await expect(readPoolPackage(file)).rejects.toThrow(/There is no package at/);
  });
});

describe('fishing counted twice', () => {
  test('two boats are two, one package under two names is one', async () => {
    const one = await readPoolPackage(join(SAMPLES, 'linnet-quay'));
    const other = await readPoolPackage(join(SAMPLES, 'sable-roads'));
    expect(() => refuseDoubleCounts([one, other])).not.toThrow();
    expect(() => refuseDoubleCounts([one, other, one])).toThrow(/linnet-quay is named twice/);
    const copy = await readPoolPackage(copyOf());
    expect(() => refuseDoubleCounts([one, other, copy])).toThrow(/one package under two names/);
  });

  test('one vessel in the same months is refused with the months; in other months it may be pooled', async () => {
    const one = await readPoolPackage(join(SAMPLES, 'linnet-quay'));
    const later = { ...one, fingerprint: 'other', folder: 'later' };
    expect(() => refuseDoubleCounts([one, later])).toThrow(
      /linnet-quay and later hold the same vessel in the same months \(2024-11, 2024-12/,
    );
    const elsewhen = { ...later, months: new Set(['2025-06']) };
    expect(() => refuseDoubleCounts([one, elsewhen])).not.toThrow();
  });
});
