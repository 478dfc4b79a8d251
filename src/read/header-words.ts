/**
 * A header as words joined by `_`, so that `Trip #`, `trip-no` and `TripNo` are one: Unicode forms
 * folded, accents and case taken off, `#` read as "no" and `°` as "deg".
 */
export function headerWords(header: string): string {
  return header
    .normalize('NFKD')
    .replace(/\p{M}+/gu, '')
    .replace(/([\p{Ll}\d])(\p{Lu})/gu, '$1 $2')
    .toLowerCase()
    .replace(/#|№|\bn[°º]/g, ' no ')
    .replace(/°|º/g, ' deg ')
    .replace(/['’]/g, '')
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim()
    .replace(/ /g, '_');
}
