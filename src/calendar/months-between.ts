/**
 * Months from one YYYY-MM to another.
 *
 * @example monthsBetween('2026-11', '2027-02') // 3
 */
export function monthsBetween(from: string, to: string): number {
  return monthNumber(to) - monthNumber(from);
}

function monthNumber(month: string): number {
  return Number(month.slice(0, 4)) * 12 + Number(month.slice(5, 7));
}
