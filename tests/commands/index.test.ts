import { join } from 'node:path';
import { expect, test } from 'vitest';
import { monthsModelEntry } from '../../src/write/pages/months-model-entry.ts';
import { reportContext } from '../../src/write/pages/report-context.ts';
import { demoSeason } from '../helpers/one-page.ts';
import { runCommand } from '../helpers/run-command.ts';

const demo = join(import.meta.dirname, '../../data-samples/port-vellamy');
const index = (...words: readonly string[]) => runCommand('index', demo, '--quiet', ...words);

test('index says what the Season page says of the model behind it', async () => {
  const asked = ['--measure', 'caught_per_line_hour'];
  const { out } = await index(...asked);
  const filter = { only: {}, from: null, to: null };
  const context = reportContext(await demoSeason(), { filter, level: 0.95, seed: 1 });
  const said = (await monthsModelEntry(context))?.entry.answer;
  expect(said).toMatch(/of 100 soaks lie where the model expects 5/);
  expect(out).toContain(`Does the model fit? ${said}`);
  const { model } = JSON.parse((await index(...asked, '--json')).out);
  expect(model.fit.sentence).toBe(said);
});
