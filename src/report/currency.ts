/**
 * Currencies whose minor unit is not a hundredth, by ISO 4217 (from memory); all others have 2 digits.
 */
const MINOR_DIGITS: Readonly<Record<string, number>> = {
  BIF: 0,
  CLP: 0,
  DJF: 0,
  GNF: 0,
  ISK: 0,
  JPY: 0,
  KMF: 0,
  KRW: 0,
  PYG: 0,
  RWF: 0,
  UGX: 0,
  UYI: 0,
  VND: 0,
  VUV: 0,
  XAF: 0,
  XOF: 0,
  XPF: 0,
  BHD: 3,
  IQD: 3,
  JOD: 3,
  KWD: 3,
  LYD: 3,
  OMR: 3,
  TND: 3,
  CLF: 4,
  UYW: 4,
};

/** Digits after the point in amounts of a currency: JPY 0, EUR 2, KWD 3. */
export function minorDigits(currency: string): number {
  return MINOR_DIGITS[currency] ?? 2;
}
