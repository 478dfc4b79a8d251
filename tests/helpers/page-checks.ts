import type { TextFile } from '../../src/write/new-files.ts';

const MOST_BYTES = 400_000;

/**
 * What is wrong with the files of a report as they would lie on disk: words no reader should see,
 * links that lead nowhere, ids that stand twice, pages too heavy for a phone.
 */
export function reportFaults(files: readonly TextFile[]): string[] {
  const names = new Set(files.map(({ name }) => name));
  const idsOf = new Map(files.map(({ name, text }) => [name, idsIn(text)]));
  const faults = files.length === names.size ? [] : ['a file name stands twice'];
  for (const { name, text } of files.filter((file) => file.name.endsWith('.html'))) {
    const ids = idsOf.get(name) ?? [];
    if (new Set(ids).size !== ids.length) faults.push(`${name}: an id stands twice`);
    if (Buffer.byteLength(text) > MOST_BYTES) faults.push(`${name}: ${text.length} bytes`);
    const [odd] = /\b(?:NaN|undefined|Infinity|\[object)\b/.exec(visibleText(text)) ?? [];
    if (odd !== undefined) faults.push(`${name}: says ${odd}`);
    for (const [, file = '', anchor] of text.matchAll(/<a[^>]* href="([^"#]*)(?:#([^"]*))?"/g)) {
      const target = file === '' ? name : file;
      if (!names.has(target)) faults.push(`${name}: links to ${target}, which is not there`);
      else if (anchor !== undefined && !idsOf.get(target)?.includes(anchor)) {
        faults.push(`${name}: links to ${target}#${anchor}, which is not there`);
      }
    }
  }
  for (const { name, text } of files.filter((file) => file.name.endsWith('.csv'))) {
    if (/(^|,)(NaN|undefined|null)(,|\r|$)/m.test(text)) faults.push(`${name}: holds a non-number`);
    if (!files.some((page) => page.text.includes(`href="${name}"`))) {
      faults.push(`${name}: no page links to it`);
    }
  }
  return faults;
}

/** The text a reader sees, tags and style taken out. */
export function visibleText(html: string): string {
  return html
    .replace(/<style>.*?<\/style>/s, '')
    .replace(/<[^>]*>/g, ' ')
    .replaceAll('&lt;', '<')
    .replaceAll('&amp;', '&')
    .replace(/\s+/g, ' ');
}

/** The sentence under a question, by the entry's id. */
export function answerOf(files: readonly TextFile[], page: string, id: string): string {
  const text = files.find(({ name }) => name === page)?.text ?? '';
  const entry = text.slice(text.indexOf(`id="${id}"`));
  const [, answer = ''] = /<p class="answer">(.*?)<\/p>/s.exec(entry) ?? [];
  return visibleText(answer).trim();
}

function idsIn(html: string): string[] {
  return [...html.matchAll(/<[^>]*\sid="([^"]*)"/g)].map(([, id = '']) => id);
}
