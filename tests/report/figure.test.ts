import { describe, expect, test } from 'vitest';
import { minorDigits } from '../../src/report/currency.js';
import { formatFigure, formatKind, formatMoney, unitOf } from '../../src/report/figure.js';

describe('figures in print', () => {
  test.each([
    [1234567.891, 2, '1,234,567.89'],
    [-1234.5, 1, '-1,234.5'],
    [999.95, 1, '1,000.0'],
    [0, 1, '0.0'],
    [-0.04, 1, '0.0'],
    [-0, 0, '0'],
    [100000, 0, '100,000'],
    [12, 0, '12'],
  ])('%d with %d digits is %s', (value, digits, text) => {
    expect(formatFigure(value, digits)).toBe(text);
  });

  test('money has the digits of its currency', () => {
    expect(formatMoney(1234.5678, 'JPY')).toBe('1,235 JPY');
    expect(formatMoney(1234.5678, 'EUR')).toBe('1,234.57 EUR');
    expect(formatMoney(1234.5678, 'KWD')).toBe('1,234.568 KWD');
  });

  test('absent is not zero', () => {
    expect(formatKind(undefined, 'mass', { mass: 'tonne', currency: 'EUR' })).toBe('-');
    expect(formatKind(0, 'mass', { mass: 'tonne', currency: 'EUR' })).toBe('0.0');
  });

  test('units follow the scenario', () => {
    expect(unitOf('money by mass', { mass: 'short ton', currency: 'USD' })).toBe('USD/short ton');
  });
});

// ISO 4217 by way of the Unicode CLDR data inside the JavaScript engine, which departs from it for a few
// currencies whose minor unit is out of use; those are not compared.
test('minor digits agree with the data that the JavaScript engine carries', () => {
  const codes = [
    'BHD',
    'CAD',
    'CHF',
    'CLP',
    'EUR',
    'GBP',
    'INR',
    'JOD',
    'JPY',
    'KRW',
    'KWD',
    'MXN',
    'OMR',
    'TND',
    'USD',
    'VND',
    'XOF',
    'PYG',
    'ISK',
  ];
  for (const currency of codes) {
    const { maximumFractionDigits } = new Intl.NumberFormat('en', {
      style: 'currency',
      currency,
    }).resolvedOptions();
    expect([currency, minorDigits(currency)]).toEqual([currency, maximumFractionDigits]);
  }
});
