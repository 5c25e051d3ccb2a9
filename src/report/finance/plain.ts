import { formatFigure } from '../figure.js';

/** A smaller number is the rounding of none. */
const NOTHING = 1e-9;

/** A number of no certain size, with seven digits. */
export function plain(value: number): string {
  if (Math.abs(value) < NOTHING) return '0';
  const rounded = Number(value.toPrecision(7));
  const decimals = String(rounded).split('.')[1]?.length ?? 0;
  return formatFigure(rounded, Math.min(decimals, 8));
}
