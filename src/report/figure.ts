import { minorDigits } from './currency.js';

/** What a figure measures; fixes its unit and its digits in print. */
export type FigureKind =
  | 'mass'
  | 'money'
  | 'money by mass'
  | 'money by energy'
  | 'hours'
  | 'energy'
  | 'load'
  | 'share'
  | 'count';

export interface ReportUnits {
  readonly mass: string;
  readonly currency: string;
}

/** Stands in print where there is no figure: absent is not zero. */
export const ABSENT = '-';

/**
 * A figure rounded for people, the same in every locale: point, commas between thousands, no sign on a zero.
 *
 * @example formatFigure(-1234.56, 1) // '-1,234.6'
 */
export function formatFigure(value: number, digits: number): string {
  const [whole, decimals] = Math.abs(value).toFixed(digits).split('.');
  const grouped = whole.replace(/\B(?=(\d{3})+$)/g, ',');
  const text = decimals === undefined ? grouped : `${grouped}.${decimals}`;
  return value < 0 && /[1-9]/.test(text) ? `-${text}` : text;
}

/** A figure of a kind, in print; `-` where it is absent. Shares are printed in percent. */
export function formatKind(value: number | undefined, kind: FigureKind, units: ReportUnits): string {
  if (value === undefined) return ABSENT;
  return formatFigure(kind === 'share' ? value * 100 : value, digitsOf(kind, units));
}

/** The unit of a kind of figure, in print. */
export function unitOf(kind: FigureKind, units: ReportUnits): string {
  switch (kind) {
    case 'mass':
      return units.mass;
    case 'money':
      return units.currency;
    case 'money by mass':
      return `${units.currency}/${units.mass}`;
    case 'money by energy':
      return `${units.currency}/kWh`;
    case 'hours':
      return 'h';
    case 'energy':
      return 'kWh';
    case 'load':
      return 'kW';
    case 'share':
      return '%';
    case 'count':
      return '';
  }
}

/** An amount with its currency: '1,234.50 EUR'. */
export function formatMoney(value: number, currency: string): string {
  return `${formatFigure(value, minorDigits(currency))} ${currency}`;
}

function digitsOf(kind: FigureKind, units: ReportUnits): number {
  switch (kind) {
    case 'money':
    case 'money by mass':
      return minorDigits(units.currency);
    case 'money by energy':
      return minorDigits(units.currency) + 2;
    case 'mass':
    case 'hours':
    case 'share':
    case 'load':
      return 1;
    case 'energy':
    case 'count':
      return 0;
  }
}
