import { stringify } from 'yaml';
import { DEFAULT_POSITIONS } from '../../src/settings/settings.ts';
import type { World } from './world.ts';

/** The settings file that goes with the season, commented for a reader who opens it first. */
export function seasonYaml(world: World): string {
  const blocks: readonly (readonly [string, unknown])[] = [
    [
      'An invented boat in an invented harbour: see ../README.md.',
      {
        name: world.name,
        vessel: world.vessel,
        time_zone: world.time_zone,
        date_order: 'ymd',
      },
    ],
    [
      'Two kites with three lines each, two flat lines, a pitch rod.',
      { positions: DEFAULT_POSITIONS },
    ],
    [
      'Each name as the pages show it, then the other spellings the crew uses.',
      {
        baits: spellings(world.baits),
        line_types: spellings(world.line_types),
      },
    ],
    [
      'FAO three-letter codes; kept: whether this boat takes the fish home.',
      { species: species(world) },
    ],
    ['A fish on one line stops that line only.', { fight_clears: 'line' }],
    [
      'The smallest difference worth a change of habit: 5 bites in 100, a tenth of a rate.',
      {
        practical_margin: { hookup_rate: 0.05, caught_rate: 0.05, bites_per_line_hour: 0.1 },
      },
    ],
    [
      'What things cost: a reel filled, a fish lost to broken line, a bait too few, a bait too many.',
      {
        currency: world.costs.currency,
        costs: {
          spool: Object.fromEntries(
            Object.entries(world.line_types).map(([type, { spool_cost }]) => [type, spool_cost]),
          ),
          lost_fish: world.costs.lost_fish,
          bait_short: world.costs.bait_short,
          bait_left: world.costs.bait_left,
        },
      },
    ],
    [
      'How coarse a shared package must be.',
      {
        share: { grid_deg: 1, min_vessels: 3, min_trips: 3, period: 'month' },
      },
    ],
  ];
  return blocks.map(([comment, block]) => `# ${comment}\n${yaml(block)}`).join('\n');
}

function yaml(block: unknown): string {
  return stringify(block, { lineWidth: 100, collectionStyle: 'any', flowCollectionPadding: false });
}

function spellings(
  words: Readonly<Record<string, { readonly spellings: readonly string[] }>>,
): Record<string, readonly string[]> {
  return Object.fromEntries(Object.entries(words).map(([word, truth]) => [word, truth.spellings]));
}

function species(world: World): Record<string, unknown> {
  const entries = Object.entries(world.species).map(([name, { code, spellings, kept }]) => [
    name,
    { code, spellings, kept: kept > 0 },
  ]);
  return Object.fromEntries(entries);
}
