#!/usr/bin/env node
import { realpathSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import { setFlagsFromString } from 'node:v8';
import { Command, CommanderError } from 'commander';
import { UserError } from './base/problem.ts';
import { type Effects, terminalEffects } from './commands/effects.ts';
import { PLANNED_FACTORS } from './estimate/plan-design.ts';
import { FACTOR_NAMES } from './tally/factors.ts';
import { MEASURE_NAMES } from './tally/measures.ts';
import { VERSION } from './version.ts';

/**
 * Runs one command line and says how it ended.
 * @param words what stands after the program's name.
 * @returns 0 done; 1 done, but rows were set aside or an answer was refused; 2 the call or the
 * settings were wrong; 3 the log could not be read; 4 a share was stopped by its own scan.
 */
export async function run(words: readonly string[], effects: Effects): Promise<number> {
  let exitCode = 0;
  const program = programFor(effects, (code) => {
    exitCode = code;
  });
  try {
    await program.parseAsync([...words], { from: 'user' });
    return exitCode;
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? 0 : 2;
    if (!(error instanceof UserError)) throw error;
    effects.err(`linehours: ${error.message}\n`);
    return error.exitCode;
  }
}

function programFor(effects: Effects, leave: (code: number) => void): Command {
  const program = new Command('linehours')
    .description('Turns the log of a live-bait season into rates, comparisons and decisions.')
    .version(VERSION)
    .exitOverride()
    .configureOutput({ writeOut: effects.out, writeErr: effects.err })
    .showHelpAfterError('Add --help to see how it is called.');

  program
    .command('init')
    .argument('<dir>', 'folder to make; nothing in it is written over')
    .description(
      'write an empty log folder: CSV headers, a commented season.yaml, a log sheet to print',
    )
    .option('--json', 'print one JSON document')
    .addHelpText('after', '\nExample:\n  linehours init my-season\n')
    .action(async (dir: string, given) => {
      const { initCommand } = await import('./commands/init-command.ts');
      leave(await initCommand(dir, given, effects));
    });

  logCommand(program, 'check')
    .description('read the log and say what was repaired, warned about and set aside')
    .addHelpText('after', '\nExample:\n  linehours check my-season\n')
    .action(async (folder: string, given) => {
      const { checkCommand } = await import('./commands/check-command.ts');
      leave(await checkCommand(folder, given, effects));
    });

  logCommand(program, 'rates')
    .description('rates with intervals, by up to three factors')
    .option('--by <factors>', 'divide by these, e.g. bait,reach')
    .option('--measure <measures>', 'only these, e.g. hookup_rate')
    .option('--method <name>', 'another way to make the interval, e.g. clopper-pearson')
    .addHelpText(
      'after',
      `\nFactors: ${FACTOR_NAMES.join(', ')}\nMeasures: ${MEASURE_NAMES.join(', ')}\n` +
        '\nExample:\n  linehours rates my-season --by bait --measure hookup_rate --only reach=long\n',
    )
    .action(async (folder: string, given) => {
      const { ratesCommand } = await import('./commands/rates-command.ts');
      leave(await ratesCommand(folder, given, effects));
    });

  logCommand(program, 'compare')
    .description('two or more levels of one factor, seen three ways, with a verdict')
    .requiredOption('--factor <factor>', 'what is compared, e.g. line_type')
    .option('--between <levels>', 'the levels, e.g. braid,mono; all in the log if not said')
    .option('--measure <measure>', 'by what', 'hookup_rate')
    .option('--adjust <factors>', 'held equal in the adjusted lens', 'reach,bait,month,wind_band')
    .option('--within <factors>', 'also within each level of these, e.g. reach,wind_band')
    .option('--planned <schedule>', 'judge it by the schedule.csv of a plan, dates filled in')
    .addHelpText(
      'after',
      '\nExample:\n  linehours compare my-season --factor line_type --between braid,mono\n',
    )
    .action(async (folder: string, given) => {
      const { compareCommand } = await import('./commands/compare-command.ts');
      leave(await compareCommand(folder, given, effects));
    });

  logCommand(program, 'index')
    .description('catch per unit effort by month, with everything else held equal')
    .option('--by <factor>', 'over what', 'month')
    .option('--measure <measure>', 'which rate per line-hour', 'bites_per_line_hour')
    .option('--adjust <factors>', 'held equal', 'month,reach,bait,wind_band')
    .addHelpText('after', '\nExample:\n  linehours index my-season --by month\n')
    .action(async (folder: string, given) => {
      const { indexCommand } = await import('./commands/index-command.ts');
      leave(await indexCommand(folder, given, effects));
    });

  logCommand(program, 'wear')
    .description('line wear, when to respool, what each line costs a season, which reels are due')
    .addHelpText('after', '\nExample:\n  linehours wear my-season --only line_type=mono\n')
    .action(async (folder: string, given) => {
      const { wearCommand } = await import('./commands/wear-command.ts');
      leave(await wearCommand(folder, given, effects));
    });

  logCommand(program, 'stock')
    .description('what each bait brings, and how many of each to load')
    .option('--trips <number>', 'how many trips the load must last', '1')
    .option('--month <month>', 'learn from the trips of one month only, e.g. March')
    .option('--tank <baits>', 'the most baits the well keeps alive')
    .option('--budget <amount>', 'the most money for bait')
    .option('--held <baits>', 'still alive from another day, e.g. mullet=6,scad=4')
    .option('--without <baits>', 'not to be had today, e.g. mullet')
    .addHelpText(
      'after',
      '\nExample:\n  linehours stock my-season --trips 2 --tank 80 --without mullet\n',
    )
    .action(async (folder: string, given) => {
      const { stockCommand } = await import('./commands/stock-command.ts');
      leave(await stockCommand(folder, given, effects));
    });

  logCommand(program, 'share')
    .description('make an anonymised data package, with a report of all that it discloses')
    .option('--tier <tier>', 'cells: sums by month, grid cell and gear; trips: one by one', 'cells')
    .option('--k <trips>', 'trips: how many at least must be alike', '5')
    .option('--time <detail>', 'trips: told by week, month or quarter', 'month')
    .option('--consent', 'the owner of the only boat agrees to be the only one in a row')
    .option('--licence <name>', 'how it may be used, e.g. CC-BY-4.0, or the address of your terms')
    .option('--gear <code>', 'ISSCFG gear', 'LHP')
    .option('--noise <epsilon>', 'add two-sided geometric noise to counts')
    .option('--clip <bites>', 'with noise: the most bites one trip may add')
    .option(
      '--allow <word>',
      'a word the scan stopped at that points to nobody; may be repeated',
      collect,
    )
    .addHelpText(
      'after',
      '\nKey and ledger are kept in .linehours-private in the log folder, the only thing this tool\n' +
        'ever writes there. Grid, period and thresholds: share in season.yaml.\n' +
        '\nExample:\n  linehours share my-season --out shared --consent --licence CC-BY-4.0\n',
    )
    .action(async (folder: string, given) => {
      const { shareCommand } = await import('./commands/share-command.ts');
      leave(await shareCommand(folder, given, effects));
    });

  program
    .command('pool')
    .argument('<package...>', 'folders that share wrote, two or more')
    .description('put several boats’ packages together; no log is needed')
    .option('--level <share>', 'confidence level of the intervals', '0.95')
    .option('--json', 'print one JSON document')
    .option('--out <dir>', 'where the page is written', 'reports/pool')
    .option('--quiet', 'no progress')
    .addHelpText('after', '\nExample:\n  linehours pool shared/one-boat shared/another-boat\n')
    .action(async (paths: string[], given) => {
      const { poolCommand } = await import('./commands/pool-command.ts');
      leave(await poolCommand(paths, { seed: '1', ...given }, effects));
    });

  logCommand(program, 'plan')
    .description('how many trips would tell two levels apart, and a schedule drawn by lot for them')
    .requiredOption('--factor <factor>', 'what is tested, e.g. line_type')
    .requiredOption('--between <levels>', 'the two, e.g. braid,mono; one may be new to the log')
    .option('--trips <number>', 'trips that can be given to it; as many as it takes if not said')
    .option('--difference <size>', 'what is to be told: 0.05 is 5 points, or 5 % of a rate')
    .option('--measure <measure>', 'by what', 'hookup_rate')
    .option('--power <chance>', 'chance of telling it', '0.8')
    .addHelpText(
      'after',
      `\nFactors: ${PLANNED_FACTORS.join(', ')}\n` +
        '\nExample:\n  linehours plan my-season --factor line_type --between braid,mono --out plans/braid\n',
    )
    .action(async (folder: string, given) => {
      const { planCommand } = await import('./commands/plan-command.ts');
      leave(await planCommand(folder, given, effects));
    });

  logCommand(program, 'report')
    .description('write the whole report as static pages')
    .addHelpText('after', '\nExample:\n  linehours report my-season --out reports/my-season\n')
    .action(async (folder: string, given) => {
      const { reportCommand } = await import('./commands/report-command.ts');
      leave(await reportCommand(folder, given, effects));
    });

  return program;
}

/** A verb that reads a log, with the options that all of them take. */
function logCommand(program: Command, verb: string): Command {
  return program
    .command(verb)
    .argument('[log]', 'the log folder', '.')
    .option('--settings <file>', 'settings to use instead of the season.yaml in the log')
    .option('--only <factor=level>', 'keep only these levels; may be repeated', collect)
    .option('--from <date>', 'first trip date, e.g. 2026-01-01')
    .option('--to <date>', 'last trip date')
    .option('--level <share>', 'confidence level of the intervals', '0.95')
    .option('--seed <number>', 'seed of whatever is drawn at random', '1')
    .option('--json', 'print one JSON document')
    .option('--out <dir>', 'where files are written')
    .option('--quiet', 'no progress');
}

/** Gathers an option that may be given several times. */
function collect(given: string, before: readonly string[] = []): string[] {
  return [...before, given];
}

/** Whether this file is what node was asked to run, also through the link npm makes for a bin. */
function isMain(): boolean {
  const started = process.argv[1];
  return started !== undefined && pathToFileURL(realpathSync(started)).href === import.meta.url;
}

/**
 * Makes the engine wait longer before it compiles a function for speed: a command is over in
 * seconds, and compiling in the background takes the processor that the drawing thread works on.
 * Measured on the demo's report: a tenth less time.
 */
function compileLater(): void {
  setFlagsFromString('--interrupt-budget=500000');
}

if (isMain()) {
  compileLater();
  process.exitCode = await run(process.argv.slice(2), terminalEffects());
}
