import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { separate, twoProductRecovery, twoProductShare } from '../../src/plant/separation.js';

describe('separation by constituent', () => {
  const outputs = separate(
    { rubber: 0.8, steel: 0.15, fiber: 0.05 },
    {
      to: { 'wire-free': { rubber: 0.97, steel: 0.01 }, wire: { steel: 0.985, rubber: 0.02 } },
      remainder: 'dust',
    },
  );

  test('shares and assays, by hand', () => {
    // wire-free: 0.8·0.97 + 0.15·0.01 = 0.7775; wire: 0.8·0.02 + 0.15·0.985 = 0.16375; dust: the rest, 0.05875.
    expect(outputs.map(({ material }) => material)).toEqual(['wire', 'wire-free', 'dust']);
    expect(outputs[1]!.share).toBeCloseTo(0.7775, 14);
    expect(outputs[0]!.share).toBeCloseTo(0.16375, 14);
    expect(outputs[2]!.share).toBeCloseTo(0.05875, 14);
    // Steel in the rubber 0.0015 / 0.7775, rubber on the wire 0.016 / 0.16375, fiber in the dust 0.05 / 0.05875.
    expect(outputs[1]!.assay!.steel).toBeCloseTo(0.0015 / 0.7775, 14);
    expect(outputs[0]!.assay!.rubber).toBeCloseTo(0.016 / 0.16375, 14);
    expect(outputs[2]!.assay!.fiber).toBeCloseTo(0.05 / 0.05875, 14);
  });

  test('residual rubber on the wire is inside the published 2 to 20 % (Aliapur wiki, page on metallic wire)', () => {
    expect(outputs[0]!.assay!.rubber).toBeGreaterThan(0.02);
    expect(outputs[0]!.assay!.rubber).toBeLessThan(0.2);
  });

  test('an output that nothing reaches has no assay', () => {
    const [none, all] = separate({ rubber: 1, steel: 0 }, { to: { wire: { steel: 1 } }, remainder: 'rest' });
    expect(none).toEqual({ material: 'wire', share: 0 });
    expect(all).toEqual({ material: 'rest', share: 1, assay: { rubber: 1, steel: 0 } });
  });
});

describe('two-product formula', () => {
  test('a published worked example: 8.16327 % of the mass, 81.6327 % of the copper', () => {
    // Feed 1.0 % copper, concentrate 10.0 %, tailings 0.2 %. Source: processconvert.com, two-product formula
    // calculator, worked example (read); all the printed digits.
    expect(100 * twoProductShare(0.01, 0.1, 0.002)).toBeCloseTo(8.16327, 5);
    expect(100 * twoProductRecovery(0.01, 0.1, 0.002)).toBeCloseTo(81.6327, 4);
  });

  test('assays 4.5 % feed, 20 % and 0.5 %: 20.51 % of the mass, 91.2 % of the constituent', () => {
    // (4.5 − 0.5) / (20 − 0.5) = 0.205128; 0.205128 · 20 / 4.5 = 0.911681. By hand from the formula.
    expect(twoProductShare(0.045, 0.2, 0.005)).toBeCloseTo(0.205128, 6);
    expect(twoProductRecovery(0.045, 0.2, 0.005)).toBeCloseTo(0.911681, 6);
  });

  test('it gives back share and recovery of every separation into two products, from any constituent', () => {
    const share = fc.double({ min: 0.05, max: 0.95, noNaN: true });
    fc.assert(
      fc.property(share, share, share, share, (first, second, a, b) => {
        fc.pre(Math.abs(a - b) > 0.05);
        const total = first + second;
        const input = { rubber: first / total, steel: second / total };
        const [product, rest] = separate(input, { to: { one: { rubber: a, steel: b } }, remainder: 'two' });
        for (const [constituent, recovery] of [
          ['rubber', a],
          ['steel', b],
        ] as const) {
          const assays = [
            input[constituent],
            product!.assay![constituent]!,
            rest!.assay![constituent]!,
          ] as const;
          expect(twoProductShare(...assays)).toBeCloseTo(product!.share, 9);
          expect(twoProductRecovery(...assays)).toBeCloseTo(recovery, 9);
        }
      }),
      { seed: 2 },
    );
  });
});
