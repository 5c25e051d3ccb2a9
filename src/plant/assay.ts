/** Shares by mass, by constituent or measure. */
export type Assay = Readonly<Record<string, number>>;

/** A material that leaves a step: mass by input mass, and its assay where the step says what it is made of. */
export interface Output {
  readonly material: string;
  readonly share: number;
  readonly assay?: Assay;
}

/** Rounding that is allowed where shares must add up to 1. */
export const CLOSING_TOLERANCE = 1e-9;

export function sumOf(assay: Assay): number {
  return inOrder(assay).reduce((sum, [, share]) => sum + share, 0);
}

export function closes(assay: Assay): boolean {
  return Math.abs(sumOf(assay) - 1) <= CLOSING_TOLERANCE;
}

/** In the order of ids, so that sums do not depend on the order in which the user writes. */
export function inOrder<T>(record: Readonly<Record<string, T>>): [string, T][] {
  return Object.entries(record).sort(([a], [b]) => (a < b ? -1 : 1));
}
