import { existsSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import type { Markup } from './chart-markup.ts';
import type { Chart } from './plot.ts';

/** What the drawing thread is sent, and what comes back. */
export interface AskedMarkup {
  readonly number: number;
  readonly chart: Chart;
}
export type DrawnMarkup =
  | { readonly number: number; readonly markup: Markup }
  | { readonly number: number; readonly error: unknown };

/**
 * A chart's markup. Drawing takes a fifth of a report's time and nothing but the chart, so
 * a second thread does it while the figures of the next chart are worked out; without a second
 * processor, or from the sources, it is done here. The markup is the same either way.
 */
export async function markupOf(chart: Chart): Promise<Markup> {
  prepareToDraw();
  if (aside !== null) return aside.draw(chart);
  const { chartMarkup } = await import('./chart-markup.ts');
  return chartMarkup(chart);
}

/** Starts the drawing thread, so that it is ready when the first chart is. */
export function prepareToDraw(): void {
  const script = new URL('./drawing-thread.js', import.meta.url);
  if (aside === null && availableParallelism() > 1 && existsSync(script))
    aside = new DrawingThread(script);
}

let aside: DrawingThread | null = null;

interface Waiting {
  readonly resolve: (markup: Markup) => void;
  readonly reject: (error: unknown) => void;
}

class DrawingThread {
  private readonly worker: Worker;
  private readonly waiting = new Map<number, Waiting>();
  private asked = 0;

  constructor(script: URL) {
    this.worker = new Worker(script);
    this.worker.unref();
    this.worker.on('message', (drawn: DrawnMarkup) => this.settle(drawn));
    this.worker.on('error', (error) => {
      aside = null;
      for (const { reject } of this.waiting.values()) reject(error);
    });
  }

  draw(chart: Chart): Promise<Markup> {
    this.asked += 1;
    const number = this.asked;
    // A process may end while the thread waits for work, but not while it is awaited.
    if (this.waiting.size === 0) this.worker.ref();
    return new Promise((resolve, reject) => {
      this.waiting.set(number, { resolve, reject });
      this.worker.postMessage({ number, chart } satisfies AskedMarkup);
    });
  }

  private settle(drawn: DrawnMarkup): void {
    const waiting = this.waiting.get(drawn.number);
    this.waiting.delete(drawn.number);
    if (this.waiting.size === 0) this.worker.unref();
    if ('markup' in drawn) waiting?.resolve(drawn.markup);
    else waiting?.reject(drawn.error);
  }
}
