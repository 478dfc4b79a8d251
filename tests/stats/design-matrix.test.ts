import { describe, expect, test } from 'vitest';
import { designFor, designMatrix, withLevel } from '../../src/stats/design-matrix.ts';
import { expandTerms } from '../../src/stats/design-terms.ts';

const bait = { levels: ['scad', 'mullet', 'squid'], values: ['scad', 'mullet', 'scad', 'mullet'] };
const line = { levels: ['mono', 'braid'], values: ['mono', 'mono', 'braid', 'braid'] };
const age = [1, 2, 3, 4];
const written = (terms: string[]) => expandTerms(terms).map((term) => term.join(':'));
const table = (design: ReturnType<typeof designMatrix>) =>
  Object.fromEntries(design.names.map((name, i) => [name, [...(design.columns[i] ?? [])]]));

describe('terms', () => {
  test('a product is written out, lower orders first, each term once', () => {
    expect(written(['line*age', 'bait'])).toEqual(['', 'line', 'age', 'bait', 'line:age']);
    expect(written(['a*b*c'])).toEqual(['', 'a', 'b', 'c', 'a:b', 'a:c', 'b:c', 'a:b:c']);
    expect(written(['a:b', 'b:a', 'a'])).toEqual(['', 'a', 'a:b']);
    expect(written([])).toEqual(['']);
  });
});

describe('the design', () => {
  test('treatment coding by hand: first level that occurs is the reference, unseen levels go', () => {
    const design = designMatrix(['bait', 'line', 'age'], { bait, line, age });
    expect(table(design)).toEqual({
      '(Intercept)': [1, 1, 1, 1],
      baitmullet: [0, 1, 0, 1],
      linebraid: [0, 0, 1, 1],
      age: [1, 2, 3, 4],
    });
    expect(design.constant).toEqual([]);
  });

  test('products of factors and numbers', () => {
    expect(table(designMatrix(['bait*line', 'line:age'], { bait, line, age }))).toEqual({
      '(Intercept)': [1, 1, 1, 1],
      baitmullet: [0, 1, 0, 1],
      linebraid: [0, 0, 1, 1],
      'baitmullet:linebraid': [0, 0, 0, 1],
      // Without `age` itself, the slope of each line is given, as R's model.matrix does.
      'linemono:age': [1, 2, 0, 0],
      'linebraid:age': [0, 0, 3, 4],
    });
  });

  test('a factor with one level adds no column and is named', () => {
    const one = { levels: ['mono', 'braid'], values: ['braid', 'braid', 'braid', 'braid'] };
    const design = designMatrix(['line', 'age'], { line: one, age });
    expect(design.names).toEqual(['(Intercept)', 'age']);
    expect(design.constant).toEqual(['line']);
  });

  test('no variables: the intercept alone, for a stated number of rows', () => {
    expect(table(designMatrix([], {}, 3))).toEqual({ '(Intercept)': [1, 1, 1] });
    expect(() => designMatrix([], {})).toThrow('number of rows');
  });

  test('new rows keep the old levels', () => {
    const design = designMatrix(['bait', 'line'], { bait, line });
    const mullet = { levels: ['mullet'], values: ['mullet'] };
    const mono = { levels: ['mono'], values: ['mono'] };
    expect(table(designFor(design, { bait: mullet, line: mono }))).toEqual({
      '(Intercept)': [1],
      baitmullet: [1],
      linebraid: [0],
    });
    expect(table(withLevel(design, 'line', 'braid')).linebraid).toEqual([1, 1, 1, 1]);
    const squid = { levels: ['squid'], values: ['squid'] };
    expect(() => designFor(design, { bait: squid, line: mono })).toThrow('"squid" is no level');
  });

  test('mistakes of the calling program are named', () => {
    expect(() => designMatrix(['rod'], { line })).toThrow('"rod", which is not given');
    expect(() => designMatrix(['line', 'age'], { line, age: [1] })).toThrow('1 values for 4 rows');
    expect(() => withLevel(designMatrix(['age'], { age }), 'age', 'x')).toThrow('no factor');
  });
});
