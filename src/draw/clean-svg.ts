import { VARIABLE_OF } from './palette.ts';

/**
 * Attributes that a picture inside a page does without: the picture as a whole carries the words
 * for a screen reader, the page carries the font, and a strict content policy allows no `style`.
 */
const DROPPED =
  /\s(?:aria-[a-z]+|role|class|font-family|pointer-events|stroke-miterlimit|style)="[^"]*"/g;
/** What would be so without being said. */
const PLAIN = /\s(?:(?:fill-|stroke-)?opacity="1"|stroke-dasharray=""|font-weight="normal")/g;
const NUMBER = /-?\d+\.\d{2,}(?:e-?\d+)?/g;
const STAND_INS = new RegExp([...VARIABLE_OF.keys()].join('|'), 'gi');

/**
 * Markup as the chart library writes it, made small, free of styles and with colours as variables.
 * Only tags are touched: words from a log stay as they were escaped.
 *
 * @returns the inner markup, without the outermost `svg` element.
 */
export function cleanSvg(markup: string): string {
  let inner = markup.replace(/^[^<]*<svg[^>]*>/, '').replace(/<\/svg>\s*$/, '');
  inner = inner.replace(/<text[^>]*\sopacity="0"[^>]*>.*?<\/text>/gs, '');
  inner = inner.replace(
    /<path[^>]*\bclass="(?:background|foreground)"[^>]*\/>|<(?:g|text)[^>]*\/>/g,
    '',
  );
  inner = inner.replace(/<[^>]*>/g, cleanTag);
  for (let before = ''; before !== inner; ) {
    before = inner;
    inner = inner.replace(/<g[^>]*><\/g>/g, '').replace(/<g>((?:(?!<\/?g\b).)*)<\/g>/gs, '$1');
  }
  return inner;
}

function cleanTag(tag: string): string {
  return tag
    .replace(DROPPED, '')
    .replace(PLAIN, '')
    .replace(/(\s(?:font-size)=")([\d.]+)px"/g, '$1$2"')
    .replace(NUMBER, (number) => String(Math.round(Number(number) * 10) / 10))
    .replace(/\stransform="translate\(0,0\)"/g, '')
    .replace(STAND_INS, (colour) => VARIABLE_OF.get(colour.toLowerCase()) ?? colour);
}
