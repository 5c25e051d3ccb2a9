import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parseScenario } from '../../src/scenario/parse.js';
import { readJson } from '../../src/scenario/read-json.js';
import { sampleScenario } from './sample.js';

function place(text: string): string | undefined {
  const reading = readJson(text);
  return reading.ok ? undefined : /line \d+, column \d+/.exec(reading.problems[0].message)?.[0];
}

function remedy(text: string): string {
  const reading = readJson(text);
  return reading.ok ? '' : reading.problems[0].remedy;
}

describe('text that is not JSON', () => {
  test.each([
    ['{"a": 1,}', 'line 1, column 9', 'comma before the closing'],
    ['{\n  "a": 1\n  "b": 2\n}', 'line 3, column 3', 'a comma or a colon'],
    ['{\r\n  a: 1\r\n}', 'line 2, column 3', 'double quotation marks'],
    ["{'a': 1}", 'line 1, column 2', 'double quotation marks'],
    ['{"a": NaN}', 'line 1, column 7', 'finite number'],
    ['{"a": -Infinity}', 'line 1, column 7', 'finite number'],
    ['{"a": +1}', 'line 1, column 7', 'no plus sign'],
    ['{"a": .5}', 'line 1, column 7', 'no plus sign'],
    ['{"a": 01}', 'line 1, column 7', 'leading zero'],
    ['{} // why', 'line 1, column 4', 'Delete the comment'],
    ['/* why */ {}', 'line 1, column 1', 'Delete the comment'],
    ['{"a": "x\ny"}', 'line 1, column 9', 'line break'],
    ['{"a": [1, 2', 'line 1, column 12', 'Close every'],
    ['{', 'line 1, column 2', 'Close every'],
    ['{"a": {"b": 1}\n', 'line 1, column 15', 'Close every'],
    ['{"a": "b', 'line 1, column 9', 'Close every'],
    ['{"a"', 'line 1, column 5', 'Close every'],
    ['[1 2]', 'line 1, column 4', 'a comma or a colon'],
  ])('is refused with line and column: %j', (text, where, what) => {
    expect(place(text)).toBe(where);
    expect(remedy(text)).toContain(what);
  });

  test.each(['', ' \n', '\uFEFF'])('is refused where it is empty: %j', (text) => {
    const reading = readJson(text);
    expect(reading.ok).toBe(false);
    expect(reading.problems[0].message).toContain('empty');
  });

  test('is refused exactly where the JSON reader of the language refuses it', () => {
    const fragments = [
      '{',
      '}',
      '[',
      ']',
      ',',
      ':',
      '"',
      '"a"',
      '1',
      '-',
      '.5',
      'e3',
      'true',
      ' ',
      '\\',
      '\t',
    ];
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...fragments), { maxLength: 12 }), (parts) => {
        const text = parts.join('');
        expect(readJson(text).ok).toBe(isJson(text));
      }),
      { numRuns: 2000 },
    );
  });

  test('does not overflow the stack, however deep', () => {
    const deep = `${'['.repeat(200_000)}${']'.repeat(200_000)}`;
    expect(remedy(deep)).toContain('nests no deeper');
    expect(remedy(`{"a":`.repeat(50_000))).toContain('nests no deeper');
  });
});

describe('JSON text', () => {
  test('may begin with a byte order mark', () => {
    expect(parseScenario(`\uFEFF${JSON.stringify(sampleScenario())}`).ok).toBe(true);
  });

  test('may not say a key twice in one object: every one is told by pointer and line', () => {
    const reading = readJson('{"a": 1,\n"b": [{"c": 1, "c/d": 2, "c": 3}],\n"a": {"x": 1, "x": 1}}');
    expect(reading.problems.map(({ pointer }) => pointer)).toEqual(['/b/0/c', '/a', '/a/x']);
    expect(reading.problems[1].message).toContain('lines 1 and 3');
  });

  test('with a key said twice is checked in all else', () => {
    const text = JSON.stringify(sampleScenario()).replace('"title":', '"discountRate":"8 %","title":');
    const checked = parseScenario(text.replace('"discountRate":0.08,', '"title":"Other",'));
    expect(checked.ok ? [] : checked.problems.map(({ pointer, code }) => `${pointer} ${code}`)).toEqual([
      '/discountRate wrong type',
      '/title malformed',
    ]);
  });

  test('with an infinite number or a __proto__ key is refused', () => {
    const text = JSON.stringify(sampleScenario());
    const infinite = parseScenario(text.replace('"discountRate":0.08', '"discountRate":1e999'));
    expect(infinite.ok ? [] : infinite.problems.map(({ pointer }) => pointer)).toEqual(['/discountRate']);
    const proto = parseScenario(text.replace('"tireMass":9.1', '"tireMass":9.1,"__proto__":{"stock":1}'));
    expect(proto.ok ? [] : proto.problems.map(({ pointer }) => pointer)).toEqual(['/materials/0/__proto__']);
  });
});

function isJson(text: string): boolean {
  try {
    JSON.parse(text);
    return true;
  } catch {
    return false;
  }
}
