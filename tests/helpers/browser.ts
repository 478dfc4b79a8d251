import { existsSync } from 'node:fs';
import axe from 'axe-core';
import { type Browser, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';

/** Where an installed Chromium or Chrome usually lies. */
const PLACES = [
  process.env.CHROME_PATH ?? '',
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/usr/bin/google-chrome-stable',
  '/snap/bin/chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
  'C:\\Program Files (x86)\\Microsoft\\Edge\\Application\\msedge.exe',
];

const FLAGS = [
  '--headless',
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

const found = PLACES.find((place) => place !== '' && existsSync(place)) ?? null;

/**
 * Tests that need a real browser. Without one they are skipped with a loud word; where CI=true the
 * lack of one is a failure.
 */
export function describeInBrowser(title: string, body: (browser: () => Browser) => void): void {
  if (found === null) {
    const words = `NO BROWSER: "${title}" needs an installed Chromium or Chrome (or CHROME_PATH).`;
    if (process.env.CI === 'true') test(title, () => expect.fail(words));
    else {
      console.warn(`\n*** ${words} Its tests are skipped. ***\n`);
      describe.skip(title, () => body(() => expect.fail(words)));
    }
    return;
  }
  describe(title, () => {
    let browser: Browser | null = null;
    beforeAll(async () => {
      browser = await chromium.launch({ executablePath: found, args: FLAGS });
    }, 60_000);
    afterAll(async () => {
      await browser?.close();
    });
    body(() => browser ?? expect.fail('The browser has not started.'));
  });
}

/** How a page is looked at. */
export interface Look {
  readonly width: number;
  readonly scheme: 'light' | 'dark';
  /** Whether axe-core looks too, which takes most of the time. */
  readonly axe: boolean;
}

/**
 * The looks every page must stand: a phone and a laptop, by day and by night. Axe sees each width
 * and each scheme once.
 */
export const LOOKS: readonly Look[] = [
  { width: 360, scheme: 'light', axe: true },
  { width: 360, scheme: 'dark', axe: false },
  { width: 1280, scheme: 'light', axe: false },
  { width: 1280, scheme: 'dark', axe: true },
];

/**
 * Opens a page from disk with the network off and returns everything that is wrong with it: console
 * errors, requests elsewhere, sideways scrolling, words in pictures clipped or one over the other,
 * and what axe-core objects to.
 */
export async function faultsOf(browser: Browser, address: string, look: Look): Promise<string[]> {
  const context = await browser.newContext({
    viewport: { width: look.width, height: 900 },
    colorScheme: look.scheme,
    offline: true,
  });
  const faults: string[] = [];
  const page = await context.newPage();
  page.on('console', (message) => {
    if (['error', 'warning'].includes(message.type())) faults.push(`console: ${message.text()}`);
  });
  page.on('pageerror', (error) => faults.push(`script: ${error.message}`));
  page.on('request', (request) => {
    if (!/^(file|data):/.test(request.url())) faults.push(`request: ${request.url()}`);
  });
  await page.goto(address);
  await page.evaluate(() => {
    for (const folded of Array.from(document.querySelectorAll('details'))) folded.open = true;
  });
  faults.push(
    ...(await sidewaysFaults(page)),
    ...(await wordFaults(page)),
    ...(look.axe ? await axeFaults(page) : []),
  );
  await context.close();
  return faults;
}

async function sidewaysFaults(page: Page): Promise<string[]> {
  const [content, room] = await page.evaluate(() => {
    const root = document.documentElement;
    return [root.scrollWidth, root.clientWidth] as const;
  });
  return content > room ? [`the page is ${content} px wide in ${room} px`] : [];
}

/** Words of a picture that leave it, or that lie over other words of it, by more than a pixel. */
function wordFaults(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const slack = 1.5;
    return Array.from(document.querySelectorAll('svg')).flatMap((svg) => {
      const sheet = svg.getBoundingClientRect();
      if (sheet.width === 0) return [];
      const boxes = Array.from(svg.querySelectorAll('text')).map((text) => ({
        words: `${svg.id}: ${text.textContent?.slice(0, 40)}`,
        box: text.getBoundingClientRect(),
      }));
      const outside = boxes
        .filter(
          ({ box }) =>
            box.left < sheet.left - slack ||
            box.right > sheet.right + slack ||
            box.top < sheet.top - slack ||
            box.bottom > sheet.bottom + slack,
        )
        .map(({ words }) => `clipped: ${words}`);
      const clashes = boxes.flatMap((a, i) =>
        boxes
          .slice(i + 1)
          .filter(
            (b) =>
              Math.min(a.box.right, b.box.right) - Math.max(a.box.left, b.box.left) > slack &&
              Math.min(a.box.bottom, b.box.bottom) - Math.max(a.box.top, b.box.top) > 4,
          )
          .map((b) => `overlapping: ${a.words} / ${b.words}`),
      );
      return [...outside, ...clashes];
    });
  });
}

/**
 * The strokes inside a picture are taken out first: the picture is one thing with a name, and
 * thousands of strokes would be judged one by one.
 */
async function axeFaults(page: Page): Promise<string[]> {
  await page.evaluate(() => {
    for (const part of Array.from(document.querySelectorAll('svg > g'))) part.remove();
  });
  await page.evaluate(axe.source);
  const { violations } = (await page.evaluate('axe.run()')) as axe.AxeResults;
  return violations.flatMap((violation) =>
    violation.nodes.map((node) => `axe ${violation.id}: ${node.html.slice(0, 160)}`),
  );
}
