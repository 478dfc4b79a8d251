const ENTITIES: Readonly<Record<string, string>> = {
  amp: '&',
  lt: '<',
  gt: '>',
  quot: '"',
  apos: "'",
  nbsp: ' ',
};

/**
 * A text as it stands and as its readers will see it: with the escapes of HTML, JSON and web
 * addresses undone. Lines stay where they are.
 */
export function readersViews(text: string): string[] {
  const views = [text, htmlUnescaped(text), jsonUnescaped(text), percentUnescaped(text)];
  return [...new Set(views)];
}

function htmlUnescaped(text: string): string {
  return text.replace(/&(?:#(\d+)|#x([0-9a-f]+)|([a-z]+));/gi, (whole, ...groups) => {
    const [decimal, hex, name] = groups;
    if (name !== undefined) return ENTITIES[String(name).toLowerCase()] ?? whole;
    return letterOf(decimal === undefined ? Number.parseInt(hex, 16) : Number(decimal), whole);
  });
}

function jsonUnescaped(text: string): string {
  return text.replace(/\\u([0-9a-f]{4})/gi, (whole, hex) =>
    letterOf(Number.parseInt(hex, 16), whole),
  );
}

function percentUnescaped(text: string): string {
  return text.replace(/(?:%[0-9a-f]{2})+/gi, (run) => {
    try {
      return decodeURIComponent(run);
    } catch {
      return run;
    }
  });
}

function letterOf(code: number, otherwise: string): string {
  const isLetter = code >= 0x20 && code <= 0x10ffff;
  return isLetter ? String.fromCharCode(...utf16(code)) : otherwise;
}

function utf16(code: number): number[] {
  if (code < 0x10000) return [code];
  const over = code - 0x10000;
  return [0xd800 + (over >> 10), 0xdc00 + (over & 0x3ff)];
}
