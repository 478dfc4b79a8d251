import { UserError } from '../base/problem.ts';

/** What was met while the text of a file was cut into lines. */
export interface TextCounts {
  lf: number;
  crlf: number;
  cr: number;
  /** NUL characters met (and dropped): they end strings early in other programs. */
  nuls: number;
  /** Lines without any text. */
  blank: number;
}

/** Counts of a file that has not been read yet. */
export function noCounts(): TextCounts {
  return { lf: 0, crlf: 0, cr: 0, nuls: 0, blank: 0 };
}

/** No line of a log is this long; a file that has one would be read without end. */
const LONGEST_LINE = 16 * 1024 * 1024;

/**
 * Cuts text into physical lines, whatever ends them (CRLF, LF or a lone CR), in batches as the
 * chunks arrive. NUL characters are dropped. Counts are added to `counts` as they are met.
 * Throws a `UserError` (exit code 3) for a line of over 16 million characters.
 */
export async function* splitLines(
  chunks: AsyncIterable<string>,
  name: string,
  counts: TextCounts,
): AsyncGenerator<string[]> {
  let rest: string[] = [];
  let restLength = 0;
  let endsWithCr = false;
  let line = 0;
  for await (let chunk of chunks) {
    if (chunk.includes('\0')) chunk = withoutNuls(chunk, counts);
    // A CRLF may be cut in two by the end of a chunk.
    if (endsWithCr && chunk.startsWith('\n')) {
      chunk = chunk.slice(1);
      counts.cr--;
      counts.crlf++;
    }
    if (chunk === '') continue;
    endsWithCr = chunk.endsWith('\r');
    const lines = cutLines(chunk, counts);
    const first = lines[0] ?? '';
    rest.push(first);
    restLength += first.length;
    if (restLength > LONGEST_LINE) {
      throw new UserError(
        `${name}, line ${line + 1} is over 16 million characters long. That is no log; export the table as CSV anew.`,
        3,
      );
    }
    if (lines.length === 1) continue;
    lines[0] = rest.join('');
    const last = lines.pop() ?? '';
    rest = [last];
    restLength = last.length;
    line += lines.length;
    yield lines;
  }
  if (restLength > 0) yield [rest.join('')];
}

function cutLines(chunk: string, counts: TextCounts): string[] {
  if (!chunk.includes('\r')) {
    const lines = chunk.split('\n');
    counts.lf += lines.length - 1;
    return lines;
  }
  for (const [end] of chunk.matchAll(/\r\n|\n|\r/g)) {
    if (end === '\r\n') counts.crlf++;
    else if (end === '\n') counts.lf++;
    else counts.cr++;
  }
  return chunk.split(/\r\n|\n|\r/);
}

function withoutNuls(chunk: string, counts: TextCounts): string {
  const clean = chunk.replaceAll('\0', '');
  counts.nuls += chunk.length - clean.length;
  return clean;
}

/**
 * The line end of a file in a word; `mixed` where a second kind ends more than a tenth of the lines
 * (a few others are line breaks inside cells).
 */
export function lineEndName(counts: TextCounts): string {
  const kinds = [
    { name: 'CRLF', lines: counts.crlf },
    { name: 'LF', lines: counts.lf },
    { name: 'CR', lines: counts.cr },
  ].sort((a, b) => b.lines - a.lines);
  const [first, second] = kinds;
  if (first === undefined || second === undefined || first.lines === 0) return 'none';
  return second.lines * 10 > first.lines + second.lines ? 'mixed' : first.name;
}
