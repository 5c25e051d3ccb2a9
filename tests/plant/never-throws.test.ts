import { expect, test } from 'vitest';
import { readPlantDocument } from '../../src/plant/read-plant.js';
import { EXAMPLE } from './example-scenario.js';

type Path = readonly (string | number)[];

function pathsOf(value: unknown, path: Path = []): Path[] {
  if (typeof value !== 'object' || value === null) return [path];
  return [path, ...Object.entries(value).flatMap(([key, inner]) => pathsOf(inner, [...path, key]))];
}

/** The document with something else at a place. */
function withValue(document: unknown, path: Path, value: unknown): unknown {
  const copy = structuredClone(document) as Record<string | number, unknown>;
  const holder = path.slice(0, -1).reduce((at, key) => at[key] as Record<string | number, unknown>, copy);
  const last = path.at(-1)!;
  if (value !== undefined) holder[last] = value;
  else if (Array.isArray(holder)) holder.splice(Number(last), 1);
  else delete holder[last];
  return copy;
}

const PLACES = pathsOf(EXAMPLE).slice(1);

test.each([
  ['left out', undefined],
  ['a text', 'shred'],
])('with any one place %s, a plant is read or its problems are told', (_, value) => {
  const outcomes = PLACES.map((path) => {
    const reading = readPlantDocument(withValue(EXAMPLE, path, value));
    return reading.ok ? 'plant' : reading.problems.length;
  });
  expect(outcomes).toHaveLength(PLACES.length);
  expect(outcomes.filter((outcome) => outcome === 0)).toEqual([]);
  expect(outcomes.some((outcome) => outcome !== 'plant')).toBe(true);
});
