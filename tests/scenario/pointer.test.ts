import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { formatPointer, parsePointer, resolvePointer, toIdPointer } from '../../src/scenario/pointer.js';
import { sampleScenario } from './sample.js';

// The document and the pointers of RFC 6901, section 5.
const RFC_6901 = {
  foo: ['bar', 'baz'],
  '': 0,
  'a/b': 1,
  'c%d': 2,
  'e^f': 3,
  'g|h': 4,
  'i\\j': 5,
  'k"l': 6,
  ' ': 7,
  'm~n': 8,
};

describe('a JSON Pointer', () => {
  test.each([
    ['', RFC_6901],
    ['/foo', ['bar', 'baz']],
    ['/foo/0', 'bar'],
    ['/', 0],
    ['/a~1b', 1],
    ['/c%d', 2],
    ['/e^f', 3],
    ['/g|h', 4],
    ['/i\\j', 5],
    ['/k"l', 6],
    ['/ ', 7],
    ['/m~0n', 8],
  ])('of RFC 6901 section 5 leads to its value: %s', (pointer, value) => {
    expect(resolvePointer(RFC_6901, pointer)?.value).toEqual(value);
  });

  test('reads ~01 as ~1, not as a slash (RFC 6901 section 4)', () => {
    expect(parsePointer('/~01')).toEqual(['~1']);
  });

  test.each(['a', 'a/b', '/~', '/~2', '/a~'])('is refused where it is none: %s', (text) => {
    expect(parsePointer(text)).toBeUndefined();
    expect(resolvePointer(RFC_6901, text)).toBeUndefined();
  });

  test('takes an id in place of a position', () => {
    const location = resolvePointer(sampleScenario(), '/outlets/turf/tiers/1/upTo');
    expect(location).toEqual({ path: ['outlets', 0, 'tiers', 1, 'upTo'], value: 140 });
  });

  test.each([
    '/outlets/nobody',
    '/outlets/99',
    '/outlets/-',
    '/outlets/01',
    '/outlets/-1',
    '/outlets/1e0',
    '/outlets/length',
    '/title/0',
    '/__proto__',
    '/constructor',
    '/materials/__proto__',
    '/materials/0/toString',
  ])('leads nowhere: %s', (pointer) => {
    expect(resolvePointer(sampleScenario(), pointer)).toBeUndefined();
  });

  test('is turned from positions to ids, where entries have ids', () => {
    expect(toIdPointer(sampleScenario(), '/outlets/0/tiers/1/price')).toBe('/outlets/turf/tiers/1/price');
    expect(toIdPointer(sampleScenario(), '/operation/windows/1/powerPrice')).toBe(
      '/operation/windows/night/powerPrice',
    );
    expect(toIdPointer(sampleScenario(), '/outlets/77')).toBeUndefined();
  });

  test('keeps a position whose id stands twice', () => {
    const document = { list: [{ id: 'a' }, { id: 'b' }, { id: 'a' }] };
    expect(['/list/0', '/list/1', '/list/2'].map((pointer) => toIdPointer(document, pointer))).toEqual([
      '/list/0',
      '/list/b',
      '/list/2',
    ]);
  });

  test('comes back from format and parse unchanged', () => {
    fc.assert(
      fc.property(fc.array(fc.oneof(fc.string(), fc.constantFrom('~', '/', '~1', '~0', ''))), (tokens) => {
        expect(parsePointer(formatPointer(tokens))).toEqual(tokens);
      }),
    );
  });

  test('leads to the same place by ids and by positions, everywhere in a scenario', () => {
    const document = sampleScenario();
    for (const path of pathsIn(document)) {
      const byPosition = formatPointer(path);
      expect(resolvePointer(document, byPosition)?.path).toEqual(path);
      expect(resolvePointer(document, toIdPointer(document, byPosition)!)?.path).toEqual(path);
    }
  });
});

function pathsIn(value: unknown, path: (string | number)[] = []): (string | number)[][] {
  if (typeof value !== 'object' || value === null) return [path];
  const children = Array.isArray(value) ? [...value.entries()] : Object.entries(value);
  return [path, ...children.flatMap(([key, child]) => pathsIn(child, [...path, key]))];
}
