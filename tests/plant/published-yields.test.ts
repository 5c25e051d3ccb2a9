import { describe, expect, test } from 'vitest';
import { separate } from '../../src/plant/separation.js';
import { amount, type Mass, type MoneyByMass, priced } from '../../src/quantity/amount.js';
import { kilogramsPer, POUNDS_PER_SHORT_TON } from '../../src/quantity/mass-unit.js';
import { STARTER_ASSAYS } from '../../src/quantity/starter-figures.js';

const POUND = kilogramsPer('short ton') / POUNDS_PER_SHORT_TON;

describe('published sums that the factors and the separation give back', () => {
  test('4.5 million tires of 20 lb at a yield of 70 % are 63 million lb of crumb (CalRecycle contractor report, 2013)', () => {
    const kilograms = 4.5e6 * 20 * POUND;
    expect(kilograms / 1000).toBeCloseTo(40_823.31, 2);
    expect((kilograms * 0.7) / 1000).toBeCloseTo(28_576.32, 2);
    expect((kilograms * 0.7) / POUND).toBeCloseTo(63e6, 3);
  });

  test('98,000 short tons of tires to 137 million lb of crumb are a yield of 0.699 (California 2012, CalRecycle conversion report)', () => {
    expect((137e6 * POUND) / (98_000 * kilogramsPer('short ton'))).toBeCloseTo(0.699, 3);
  });

  test('100 tires of 20 lb are a short ton, 0.90718474 t', () => {
    expect((100 * 20 * POUND) / 1000).toBeCloseTo(0.90718474, 12);
  });

  test('12 to 13 lb of rubber from a 20-lb tire are 60 to 65 % (FHWA-RD-97-148): a separation that takes 90 % of the rubber is near', () => {
    const tires = STARTER_ASSAYS.find(({ id }) => id === 'car-tires-example')!.value;
    const [crumb] = separate(tires, { to: { crumb: { rubber: 0.9, steel: 0.001 } }, remainder: 'rest' });
    expect(crumb!.share).toBeGreaterThan(0.6);
    expect(crumb!.share).toBeLessThan(0.65);
  });

  test('taking the steel out raises the heating value by 1 / (1 − steel): 13,000 to 15,294 Btu/lb, 28.4 to 33.4 MJ/kg (mass balance)', () => {
    const [, free] = separate({ steel: 0.15, rest: 0.85 }, { to: { wire: { steel: 1 } }, remainder: 'free' });
    expect(13_000 / free!.share).toBeCloseTo(15_294, 0);
    expect(28.4 / free!.share).toBeCloseTo(33.4, 1);
  });

  test('250 a short ton for 98,000 short tons is the money that it is', () => {
    expect(priced(amount<Mass>(98_000), amount<MoneyByMass>(250))).toBe(24_500_000);
  });
});
