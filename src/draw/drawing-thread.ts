import { parentPort } from 'node:worker_threads';
import type { AskedMarkup, DrawnMarkup } from './draw-aside.ts';
import { specMarkup } from './spec-markup.ts';

/* The thread that draws: each chart it is sent comes back as markup under the same number. */

parentPort?.on('message', async ({ number, spec }: AskedMarkup) => {
  const drawn: DrawnMarkup = await specMarkup(spec).then(
    (markup) => ({ number, markup }),
    (error: unknown) => ({ number, error }),
  );
  parentPort?.postMessage(drawn);
});
