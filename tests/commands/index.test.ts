import { join } from 'node:path';
import { expect, test } from 'vitest';
import { seasonPage } from '../../src/write/pages/season-page.tsx';
import { demoSeason, onePage } from '../helpers/one-page.ts';
import { answerOf } from '../helpers/page-checks.ts';
import { runCommand } from '../helpers/run-command.ts';

const demo = join(import.meta.dirname, '../../data-samples/port-vellamy');
const index = (...words: readonly string[]) => runCommand('index', demo, '--quiet', ...words);

test('index says what the Season page says of the model behind it', async () => {
  const asked = ['--measure', 'caught_per_line_hour'];
  const { out } = await index(...asked);
  const page = await onePage('index.html', seasonPage, await demoSeason());
  const said = answerOf(page, 'index.html', 'months-model');
  expect(said).toMatch(/of 100 soaks lie where the model expects 5/);
  expect(out).toContain(`Does the model fit? ${said}`);
  const { model } = JSON.parse((await index(...asked, '--json')).out);
  expect(model.fit.sentence).toBe(said);
});
