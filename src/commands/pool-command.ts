import { UserError } from '../base/problem.ts';
import { refuseDoubleCounts } from '../share/pool-double-counts.ts';
import { type PoolPackage, readPoolPackage } from '../share/pool-package.ts';
import { poolPages, poolWarnings } from '../share/pool-page.tsx';
import { type PooledMeasure, poolRates } from '../share/pool-rates.ts';
import { writeFolder } from '../write/write-folder.ts';
import { documentText, limitsRecord, notesOf } from './document.ts';
import { type Effects, type ExitCode, withProgress } from './effects.ts';
import { commonOptions, type GivenOptions } from './options.ts';
import { poolText } from './pool-text.ts';

/** `pool`: several packages together, from what they hold and nothing else. */
export async function poolCommand(
  paths: readonly string[],
  given: GivenOptions,
  effects: Effects,
): Promise<ExitCode> {
  const { level, json, out, quiet } = commonOptions(given);
  if (paths.length < 2) {
    throw new UserError(
      'pool takes two packages or more: linehours pool one-boat another-boat.',
      2,
    );
  }
  const packages: PoolPackage[] = [];
  for (const path of paths) packages.push(await readPoolPackage(path));
  refuseDoubleCounts(packages);
  const pooled = poolRates(distinctLabels(packages), level);
  const watching = quiet ? { ...effects, isTerminal: false } : effects;
  const files = await withProgress(watching, 'Pooling', () =>
    poolPages(distinctLabels(packages), pooled, level),
  );
  const folder = out ?? 'reports/pool';
  await writeFolder(folder, files);
  const written = files.map((file) => file.name);
  effects.out(
    json
      ? documentText(poolRecord(packages, pooled, { level, folder, written }))
      : poolText(pooled, {
          level,
          folder,
          colours: effects.colours,
          warnings: poolWarnings(packages),
        }),
  );
  return pooled.some(({ fixed, studies }) => fixed.kind === 'estimated' && studies.length > 1)
    ? 0
    : 1;
}

/** Folders of one name, as from two owners who both called it `share`, are told apart by number. */
function distinctLabels(packages: readonly PoolPackage[]): PoolPackage[] {
  return packages.map((one, at) => {
    const alike = packages.filter(({ label }) => label === one.label);
    return alike.length === 1 ? one : { ...one, label: `${one.label} (${at + 1})` };
  });
}

function poolRecord(
  packages: readonly PoolPackage[],
  pooled: readonly PooledMeasure[],
  how: { readonly level: number; readonly folder: string; readonly written: readonly string[] },
) {
  return {
    schema: 'linehours/pool@1',
    settings: { level: how.level },
    warnings: poolWarnings(packages).map((text) => ({ code: 'pool', text })),
    folder: how.folder,
    written: how.written,
    packages: distinctLabels(packages).map(({ label, folder, about, licence, months }) => ({
      package: label,
      folder,
      tier: about.tier,
      gear: about.gear,
      trips: about.trips,
      vessels: about.vessels.length,
      consent: about.consent.given,
      licence,
      months: [...months].sort(),
    })),
    pooled: pooled.map(measureRecord),
  };
}

function measureRecord(pooled: PooledMeasure) {
  const { measure, studies, fixed, random, tau2, heterogeneity, prediction } = pooled;
  return {
    measure,
    studies: studies.map(({ label, rate, figure, weightPercent }) => ({
      package: label,
      numerator: rate.numerator,
      denominator: rate.denominator,
      trips: rate.trips,
      design_effect: rate.designEffect,
      ...limitsRecord(figure),
      weight_percent: weightPercent,
      notes: notesOf(figure),
    })),
    fixed: { ...limitsRecord(fixed), method: fixed.method, notes: notesOf(fixed) },
    random: { ...limitsRecord(random), method: random.method, notes: notesOf(random) },
    hartung_knapp: limitsRecord(pooled.hartungKnapp),
    tau2,
    heterogeneity:
      heterogeneity === null
        ? null
        : {
            q: heterogeneity.Q,
            df: heterogeneity.df,
            p: heterogeneity.p,
            i2_percent: heterogeneity.I2fromQpercent,
            tau2: heterogeneity.tau2,
          },
    prediction,
    leave_one_out: pooled.leaveOneOut.map(({ without, pooled: figure }) => ({
      without,
      ...limitsRecord(figure),
      notes: notesOf(figure),
    })),
  };
}
