import { renderToString } from 'preact-render-to-string';
import { BITE_COLUMNS } from '../read/columns-bites.ts';
import { BAIT_BUY_COLUMNS, SPOOL_COLUMNS } from '../read/columns-purchases.ts';
import { SOAK_COLUMNS } from '../read/columns-soaks.ts';
import { TRIP_COLUMNS } from '../read/columns-trips.ts';
import { DEFAULT_POSITIONS } from '../settings/settings.ts';
import type { TextFile } from './new-files.ts';

/** The files of an empty log: five CSV headers, commented settings, and a sheet for the boat. */
export function starterFiles(): readonly TextFile[] {
  return [
    header('trips.csv', TRIP_COLUMNS),
    header('soaks.csv', SOAK_COLUMNS),
    header('bites.csv', BITE_COLUMNS),
    header('spools.csv', SPOOL_COLUMNS),
    header('bait-buys.csv', BAIT_BUY_COLUMNS),
    { name: 'season.yaml', text: starterSettings() },
    { name: 'log-sheet.html', text: logSheet() },
  ];
}

function header(name: string, columns: readonly { readonly name: string }[]): TextFile {
  return { name, text: `${columns.map((column) => column.name).join(',')}\r\n` };
}

function starterSettings(): string {
  const positions = DEFAULT_POSITIONS.map(
    ({ name, side, reach }) => `#   - {name: ${name}, side: ${side}, reach: ${reach}}`,
  );
  return `# Settings of this log. Every line may stay as it is: what begins with # is not read.
# Take the # away and change the value to set something.

# name: My season 2026
# vessel: Our boat

# Where the boat's clock is. Without it no clock change is known.
# time_zone: Indian/Mauritius

# How dates are written, if not year-month-day: dmy for 31/3/2026, mdy for 3/31/2026.
# date_order: dmy

# Where lines fish, in the order you think of them. This is the list if you say nothing.
# positions:
${positions.join('\n')}

# Lines that are out all the time, for a log without soaks.csv.
# standing_spread: [port-short, port-long, starboard-short, starboard-long]

# Your word for a bait, a line, a fish: then the other ways it gets written.
# baits:
#   mullet: [mulet, grey mullet]
# line_types:
#   mono: [nylon, monofilament]
#   braid: [braided]
# species:
#   sailfish: {code: SFA, spellings: [sail], kept: false}

# Headers of your own spreadsheet, by file: yours on the left, ours on the right.
# headers:
#   trips.csv:
#     Trip name: trip_id

# Which lines stop fishing while a fish is on: line, side, all or none.
# fight_clears: line

# The smallest difference worth a change of habit: 0.05 is 5 in 100 bites, or a twentieth of a rate.
# practical_margin:
#   hookup_rate: 0.05
#   bites_per_line_hour: 0.1

# What things cost, for respooling and for loading bait.
# currency: EUR
# costs:
#   spool: {mono: 38, braid: 145}
#   lost_fish: 90
#   bait_short: 14
#   bait_left: 2.5

# The units you read in; results for machines stay in knots, metres and so on.
# units: {wind: kn, depth: m, temperature: c, length: cm, weight: kg}

# How coarse a package for others must be.
# share: {grid_deg: 1, min_vessels: 3, min_trips: 3, period: month}
`;
}

const SOAK_HEADS = ['position', 'bait', 'rod', 'hook', 'leader', 'in', 'out'];
const BITE_HEADS = [
  'time',
  'position',
  'bait',
  'outcome',
  'species',
  'lost to',
  'fight min',
  'hooked in',
];

/** A sheet to print and fill in on the boat; its columns are those of the files. */
function logSheet(): string {
  const page = (
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta
          http-equiv="Content-Security-Policy"
          content="default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'"
        />
        <title>Log sheet</title>
        <style>{SHEET_STYLE}</style>
      </head>
      <body>
        <main>
          <h1>Log sheet</h1>
          <p class="line">
            Trip ____________ Date ____________ Lines in ________ Lines out ________
          </p>
          <p class="line">
            Ground ____________ Wind kn ______ from ______ Anglers ______ Rods out ______
          </p>
          <h2>Lines in the water: a row each time a bait goes in</h2>
          <EmptyTable heads={SOAK_HEADS} rows={12} />
          <h2>Bites: every one, also the missed</h2>
          <EmptyTable heads={BITE_HEADS} rows={10} />
          <p>
            Outcome: missed (never came tight), lost (hooked, came off), released, kept. Lost to:
            pulled, line broke, leader parted, hook failed, predator, other. Hooked in: corner,
            mouth, deep, foul. Leave a cell empty when you do not know; empty is never read as zero.
          </p>
          <p>
            Fish first: keep a fish that goes back in the water, and follow the local rules for
            handling, sizes, seasons and hooks. The sheet does not know them.
          </p>
        </main>
      </body>
    </html>
  );
  return `<!doctype html>\n${renderToString(page)}\n`;
}

function EmptyTable({ heads, rows }: { readonly heads: readonly string[]; readonly rows: number }) {
  return (
    <table>
      <thead>
        <tr>
          {heads.map((head) => (
            <th scope="col" key={head}>
              {head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {Array.from({ length: rows }, (_, row) => (
          <tr key={String(row)}>
            {heads.map((head) => (
              <td key={head} />
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

const SHEET_STYLE = `
@page { margin: 12mm; }
body { font: 11pt/1.35 system-ui, sans-serif; margin: 0 auto; max-width: 186mm; padding: 4mm; color: #000; background: #fff; }
h1 { font-size: 16pt; margin: 0 0 2mm; }
h2 { font-size: 12pt; margin: 4mm 0 1mm; }
.line { margin: 2mm 0; overflow-wrap: anywhere; }
table { border-collapse: collapse; width: 100%; table-layout: fixed; }
th { font-weight: 600; font-size: 9pt; text-align: left; overflow-wrap: anywhere; }
td { height: 7mm; }
th, td { border: 0.3mm solid #555; padding: 0 1mm; }
`;
