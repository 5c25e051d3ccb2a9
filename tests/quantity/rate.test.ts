import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { KILOGRAMS_PER_POUND, kilogramsPer } from '../../src/quantity/mass-unit.js';
import { currencyPerMassUnit, figureNeededBy, JOULES_PER_BTU } from '../../src/quantity/rate.js';

const TONNE = { massUnit: 'tonne', tireMass: 9.0718474, heatingValue: 30 } as const;
const SHORT_TON = { ...TONNE, massUnit: 'short ton' } as const;

describe('factors', () => {
  test('a short ton is 2000 lb of 0.45359237 kg, exactly (NIST Handbook 44, from memory)', () => {
    expect(kilogramsPer('short ton')).toBe(907.18474);
    expect(kilogramsPer('tonne')).toBe(1000);
  });

  test('1 Btu(IT) is 1055.056 J to seven figures (NIST SP 811 in the CRC Handbook of Chemistry and Physics)', () => {
    expect(JOULES_PER_BTU.toPrecision(7)).toBe('1055.056');
  });

  test('1 Btu(IT)/lb is 2.326 J/g exactly (Smithells Metals Reference Book, ch. 2)', () => {
    expect(JOULES_PER_BTU / (KILOGRAMS_PER_POUND * 1000)).toBeCloseTo(2.326, 12);
  });
});

describe('rates by mass', () => {
  // Computed from the exact definitions.
  test.each([
    [10, 220.46],
    [12, 264.55],
    [15, 330.69],
    [20, 440.92],
    [30, 661.39],
    [50, 1102.31],
  ])('%d cents a pound are %d a tonne', (cents, perTonne) => {
    expect(currencyPerMassUnit({ amount: cents / 100, per: 'lb' }, TONNE)).toBeCloseTo(perTonne, 2);
  });

  test('1 a short ton is 1.10231 a tonne, 250 are 275.578', () => {
    expect(currencyPerMassUnit({ amount: 1, per: 'short ton' }, TONNE)).toBeCloseTo(1.10231, 5);
    expect(currencyPerMassUnit({ amount: 250, per: 'short ton' }, TONNE)).toBeCloseTo(275.578, 3);
  });

  test('a rate in the unit of the scenario keeps every digit', () => {
    expect(currencyPerMassUnit({ amount: 0.1 + 0.2, per: 'tonne' }, TONNE)).toBe(0.1 + 0.2);
    expect(currencyPerMassUnit(0.1 + 0.2, SHORT_TON)).toBe(0.1 + 0.2);
    expect(currencyPerMassUnit({ amount: 0.19, per: 'lb' }, SHORT_TON)).toBeCloseTo(380, 12);
  });
});

describe('rates per tire', () => {
  test('1 for a 20-lb tire is 110.23 a tonne, 2 are 220.462', () => {
    expect(currencyPerMassUnit({ amount: 1, per: 'tire' }, TONNE)).toBeCloseTo(110.23, 2);
    expect(currencyPerMassUnit({ amount: 2, per: 'tire' }, TONNE)).toBeCloseTo(220.462, 3);
  });

  test('100 tires of 20 lb are one short ton (Pollution Prevention Infohouse, fact sheet)', () => {
    expect(currencyPerMassUnit({ amount: 1, per: 'tire' }, SHORT_TON)).toBeCloseTo(100, 9);
  });
});

describe('rates by energy', () => {
  test('a tonne of 30 MJ/kg holds 30 GJ', () => {
    expect(currencyPerMassUnit({ amount: 1.5, per: 'GJ' }, TONNE)).toBeCloseTo(45, 12);
  });

  test('a tonne of 30 MJ/kg holds 28.4345 million Btu', () => {
    expect(currencyPerMassUnit({ amount: 1, per: 'MMBtu' }, TONNE)).toBeCloseTo(30_000 / 1055.05585262, 9);
  });

  test('a short ton at 15,000 Btu/lb holds 30 million Btu', () => {
    const figures = { massUnit: 'short ton', heatingValue: 15_000 * 2.326e-3 } as const;
    expect(currencyPerMassUnit({ amount: 1, per: 'MMBtu' }, figures)).toBeCloseTo(30, 9);
  });
});

test('a rate in any basis is the same money for the same mass in both units', () => {
  const bases = ['tonne', 'short ton', 'kg', 'lb', 'tire', 'GJ', 'MMBtu'] as const;
  fc.assert(
    fc.property(fc.double({ min: -1e4, max: 1e4, noNaN: true }), fc.constantFrom(...bases), (value, per) => {
      const byTonne = currencyPerMassUnit({ amount: value, per }, TONNE);
      const byShortTon = currencyPerMassUnit({ amount: value, per }, SHORT_TON);
      expect(byShortTon / 907.18474).toBeCloseTo(byTonne / 1000, 9);
    }),
    { seed: 3 },
  );
});

test('a rate per tire needs a tire mass, one by energy a heating value, one by mass nothing', () => {
  expect(figureNeededBy({ amount: 1, per: 'tire' })).toBe('tireMass');
  expect(figureNeededBy({ amount: 1, per: 'MMBtu' })).toBe('heatingValue');
  expect(figureNeededBy({ amount: 1, per: 'lb' })).toBeUndefined();
  expect(() => currencyPerMassUnit({ amount: 1, per: 'tire' }, { massUnit: 'tonne' })).toThrow(RangeError);
});
