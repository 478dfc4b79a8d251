import type { ComponentChildren } from 'preact';
import { renderToStaticMarkup } from 'preact-render-to-string';
import { printable } from '../base/words.ts';
import { CAUTIONS } from './cautions.ts';
import { PAGE_POLICY, PAGE_STYLE } from './page-style.ts';

/** A page that exists, as the way to it is shown. */
export interface PageLink {
  /** File name in the same folder, e.g. `bait.html`. */
  readonly file: string;
  readonly title: string;
}

/** What stands round the content of a page. */
export interface PageFrame {
  /** The page's own file; one of `pages`. */
  readonly file: string;
  readonly season: string;
  /** First to last day, or why there is none. */
  readonly dates: string;
  /** The pages of this report in order, this one among them. */
  readonly pages: readonly PageLink[];
}

/** A whole page as text: complete by itself, without script, and safe whatever the log holds. */
export function pageHtml(frame: PageFrame, content: ComponentChildren): string {
  return `<!doctype html>\n${renderToStaticMarkup(<Page frame={frame}>{content}</Page>)}\n`;
}

interface PageProps {
  readonly frame: PageFrame;
  readonly children: ComponentChildren;
}

function Page({ frame, children }: PageProps) {
  const title = frame.pages.find((page) => page.file === frame.file)?.title ?? '';
  const season = printable(frame.season);
  return (
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta http-equiv="Content-Security-Policy" content={PAGE_POLICY} />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta name="referrer" content="no-referrer" />
        <meta name="color-scheme" content="light dark" />
        <title>{`${title} · ${season}`}</title>
        <link rel="icon" href={ICON} />
        <style dangerouslySetInnerHTML={{ __html: PAGE_STYLE }} />
      </head>
      <body>
        <a class="skip" href="#content">
          To the content
        </a>
        <header class="masthead">
          <div class="sheet">
            <p class="season">
              <bdi>{season}</bdi> <span>{frame.dates}</span>
            </p>
            <h1>{title}</h1>
            <Navigation frame={frame} />
          </div>
        </header>
        <main id="content" class="sheet" tabIndex={-1}>
          {children}
        </main>
        <Cautions />
      </body>
    </html>
  );
}

function Navigation({ frame }: { readonly frame: PageFrame }) {
  if (frame.pages.length < 2) return null;
  return (
    <nav aria-label="Pages of this report">
      <ul>
        {frame.pages.map(({ file, title }) => (
          <li key={file}>
            <a href={file} {...(file === frame.file ? { 'aria-current': 'page' as const } : {})}>
              {title}
            </a>
          </li>
        ))}
      </ul>
    </nav>
  );
}

function Cautions() {
  return (
    <footer class="cautions">
      <div class="sheet">
        <h2>Before you act on this</h2>
        <ul>
          {CAUTIONS.map((caution) => (
            <li key={caution}>{caution}</li>
          ))}
        </ul>
      </div>
    </footer>
  );
}

/** A small hook, drawn here so that the page asks nobody for one. */
const ICON = `data:image/svg+xml,${encodeURIComponent(
  '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 16 16"><path d="M10 2v7a3.5 3.5 0 1 1-7 0l2 1.5" fill="none" stroke="#0072b2" stroke-width="2" stroke-linecap="round"/><circle cx="10" cy="2.4" r="1.6" fill="#d55e00"/></svg>',
)}`;
