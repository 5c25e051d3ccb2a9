import { describe, expect, it } from 'vitest';
import { patchDocument } from '../../../src/analysis/variant/json-patch.js';
import { mergePatch } from '../../../src/analysis/variant/merge-patch.js';
import { variantOf } from '../../../src/analysis/variant/read-variant.js';
import { generateScenario } from '../../generate/plant.js';

/** RFC 7396, appendix A: original, patch, result. */
const MERGES: readonly (readonly [unknown, unknown, unknown])[] = [
  [{ a: 'b' }, { a: 'c' }, { a: 'c' }],
  [{ a: 'b' }, { b: 'c' }, { a: 'b', b: 'c' }],
  [{ a: 'b' }, { a: null }, {}],
  [{ a: 'b', b: 'c' }, { a: null }, { b: 'c' }],
  [{ a: ['b'] }, { a: 'c' }, { a: 'c' }],
  [{ a: 'c' }, { a: ['b'] }, { a: ['b'] }],
  [{ a: { b: 'c' } }, { a: { b: 'd', c: null } }, { a: { b: 'd' } }],
  [{ a: [{ b: 'c' }] }, { a: [1] }, { a: [1] }],
  [
    ['a', 'b'],
    ['c', 'd'],
    ['c', 'd'],
  ],
  [{ a: 'b' }, ['c'], ['c']],
  [{ a: 'foo' }, null, null],
  [{ a: 'foo' }, 'bar', 'bar'],
  [{ e: null }, { a: 1 }, { e: null, a: 1 }],
  [[1, 2], { a: 'b', c: null }, { a: 'b' }],
  [{}, { a: { bb: { ccc: null } } }, { a: { bb: {} } }],
];

describe('variants', () => {
  it.each(MERGES)('a merge patch of %j by %j gives %j (RFC 7396, appendix A)', (target, patch, result) => {
    expect(mergePatch(target, patch)).toEqual(result);
  });

  it('a JSON patch takes ids in place of positions and leaves the document as it is', () => {
    const document = {
      outlets: [
        { id: 'kiln', price: 40 },
        { id: 'turf', price: 210 },
      ],
    };
    const patched = patchDocument(document, [
      { op: 'test', path: '/outlets/turf/price', value: 210 },
      { op: 'replace', path: '/outlets/turf/price', value: 220 },
      { op: 'add', path: '/outlets/turf/freight', value: 3 },
      { op: 'remove', path: '/outlets/kiln' },
      { op: 'copy', from: '/outlets/turf/price', path: '/outlets/turf/packing' },
    ]);
    expect(patched).toEqual({
      ok: true,
      document: { outlets: [{ id: 'turf', price: 220, freight: 3, packing: 220 }] },
    });
    expect(document.outlets).toHaveLength(2);
  });

  it.each([
    [[{ op: 'test', path: '/a', value: 2 }], 'test'],
    [[{ op: 'replace', path: '/b/c', value: 2 }], 'nowhere'],
    [[{ op: 'replace', path: '/b', value: 2 }], 'cannot be applied'],
    [[{ op: 'turn', path: '/a' }], 'RFC 6902'],
    [{ op: 'remove' }, 'list of operations'],
  ])('a JSON patch that cannot be applied says so: %j', (operations, words) => {
    const patched = patchDocument({ a: 1 }, operations);
    expect(patched.ok).toBe(false);
    if (!patched.ok) expect(patched.problems[0].message).toContain(words);
  });

  it('a variant is checked like any scenario', () => {
    const document = generateScenario(1);
    const outlet = document.outlets![0].id;
    const good = variantOf(document, {
      kind: 'json patch',
      operations: [{ op: 'add', path: `/outlets/${outlet}/freight`, value: 1 }],
    });
    const bad = variantOf(document, { kind: 'merge patch', patch: { discountRate: 'high' } });
    expect(good.ok).toBe(true);
    expect(bad.ok ? [] : bad.problems.map(({ pointer }) => pointer)).toEqual(['/discountRate']);
  });
});
