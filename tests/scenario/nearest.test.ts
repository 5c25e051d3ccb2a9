import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { editDistance, nearest } from '../../src/scenario/nearest.js';

describe('the edit distance', () => {
  // "kitten" to "sitting" and "Saturday" to "Sunday" are the customary worked examples of the Levenshtein
  // distance; CA to ABC is the customary one that tells optimal string alignment (3) from the unrestricted
  // Damerau–Levenshtein distance (2). From memory.
  test.each([
    ['kitten', 'sitting', 3],
    ['Saturday', 'Sunday', 3],
    ['CA', 'ABC', 3],
    ['outlet', 'outelt', 1],
    ['', 'abc', 3],
    ['same', 'same', 0],
  ])('from %s to %s is %i', (a, b, edits) => {
    expect(editDistance(a, b)).toBe(edits);
  });

  test('is the same both ways, and at most the length of the longer word', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 12 }), fc.string({ maxLength: 12 }), (a, b) => {
        expect(editDistance(a, b)).toBe(editDistance(b, a));
        expect(editDistance(a, b)).toBeLessThanOrEqual(Math.max(a.length, b.length));
        expect(editDistance(a, b) === 0).toBe(a === b);
      }),
    );
  });
});

describe('the nearest name', () => {
  test('is the one with the fewest edits, the first of equals', () => {
    expect(nearest('car-tyres', ['truck-tires', 'car-tires'])).toBe('car-tires');
    expect(nearest('ab', ['ac', 'ad'])).toBe('ac');
    expect(nearest('Car-Tires', ['car-tires'])).toBe('car-tires');
  });

  test('is none where nothing is near', () => {
    expect(nearest('powder', ['wire', 'fluff'])).toBeUndefined();
    expect(nearest('mill', [])).toBeUndefined();
  });
});
