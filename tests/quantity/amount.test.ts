import { expect, expectTypeOf, test } from 'vitest';
import { amount, type Mass, type Money, type MoneyByMass, plus, priced } from '../../src/quantity/amount.js';

const mass = amount<Mass>(3);
const price = amount<MoneyByMass>(20);

test('a mass at a price by mass is money', () => {
  expectTypeOf(priced(mass, price)).toEqualTypeOf<Money>();
  expect(priced(mass, price)).toBe(60);
});

test('amounts of one dimension add', () => {
  expectTypeOf(plus(mass, mass)).toEqualTypeOf<Mass>();
  expect(plus(mass, mass)).toBe(6);
});

test('a mass and money do not add, nor does a price price a price', () => {
  const money = priced(mass, price);
  // @ts-expect-error a mass and money
  expect(plus(mass, money)).toBe(63);
  // @ts-expect-error money and a mass
  expect(plus(money, mass)).toBe(63);
  // @ts-expect-error two prices
  expect(priced(price, price)).toBe(400);
  // @ts-expect-error a plain number is no mass
  expect(priced(3, price)).toBe(60);
});
