import { parentPort } from 'node:worker_threads';
import { chartMarkup } from './chart-markup.ts';
import type { AskedMarkup, DrawnMarkup } from './draw-aside.ts';

/* The thread that draws: each chart it is sent comes back as markup under the same number. */

parentPort?.on('message', async ({ number, chart }: AskedMarkup) => {
  const drawn: DrawnMarkup = await chartMarkup(chart).then(
    (markup) => ({ number, markup }),
    (error: unknown) => ({ number, error }),
  );
  parentPort?.postMessage(drawn);
});
