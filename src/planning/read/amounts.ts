import type { Columns } from '../columns.js';

/** The plan's figures in the places of their columns: masses, hours, days, kW. */
export type Amounts = Columns;

/** Puts a point of the program in the places of its columns. */
export function readAmounts(columns: Columns, primal: Float64Array): Amounts {
  const read = <T>(place: T): T => {
    if (typeof place === 'number') return primal[place] as T;
    if (Array.isArray(place)) return place.map(read) as T;
    return place;
  };
  return Object.fromEntries(
    Object.entries(columns).map(([name, place]) => [name, read(place)]),
  ) as unknown as Amounts;
}
