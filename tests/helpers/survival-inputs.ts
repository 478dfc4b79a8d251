import type { Life } from '../../src/stats/kaplan-meier-lives.ts';
import { loadData } from './reference.ts';

/** The inputs of a survival case: lives in full, or the name of the data set they come from. */
export interface SurvivalInputs {
  time?: number[];
  event?: number[];
  group?: string[];
  level?: number;
  dataset?: string;
  model?: string;
}

/** The lives of a case: its own, else those of survival::lung, the only set not given in full. */
export function livesFrom({ time, event, dataset }: SurvivalInputs): Life[] {
  if (time !== undefined && event !== undefined)
    return time.map((t, i) => ({ time: t, event: event[i] === 1 }));
  if (dataset !== 'data/lung.csv') throw new Error(`No lives for ${dataset}.`);
  return lungLives();
}

/** All 228 lives of survival::lung; status 2 is the event. */
export function lungLives(): Life[] {
  const { time = [], status = [] } = loadData('lung');
  return time.map((t, i) => ({ time: Number(t), event: status[i] === '2' }));
}
