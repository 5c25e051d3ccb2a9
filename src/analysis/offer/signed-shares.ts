import { allMass } from '../../planning/all-mass.js';
import type { Formulation } from '../../planning/formulate.js';
import type { ColumnKey, RowKey } from '../../planning/keys.js';
import { ProgramBuilder } from '../../program/builder.js';
import { cellsByRow } from '../../program/cells-by-row.js';
import type { LinearProgram } from '../../program/linear-program.js';

/** How much of a contract is signed: a column between bounds, 0 to 1; whole: yes or no. */
export interface ShareSpec {
  readonly lower: number;
  readonly upper: number;
  readonly whole: boolean;
}

export type TakeKey = RowKey | { readonly kind: 'take'; readonly contract: string; readonly month?: number };
export type TakeColumn = ColumnKey | { readonly kind: 'take'; readonly contract: string };

export interface SharedProgram {
  readonly program: LinearProgram<TakeKey, TakeColumn>;
  /** The column of each contract's share. */
  readonly take: ReadonlyMap<string, number>;
}

/**
 * Contracts signed to a share s: every minimum, maximum, call and term moves with it.
 *
 *     rowLower·s ≤ row ≤ rowUpper·s,   missed ≤ its limit·s,   Σ_m deliver ≤ all mass·s where no maximum says it
 *
 * At s = 1 the program is the one given, at s = 0 the one without the contract. The columns of the shares come
 * after those of the program.
 */
export function withShares(
  { plant, program }: Formulation,
  shares: ReadonlyMap<string, ShareSpec>,
): SharedProgram {
  const builder = new ProgramBuilder<TakeKey, TakeColumn>(program.sense);
  const isShared = (key: RowKey | ColumnKey) => 'contract' in key && shares.has(key.contract);
  const moving: { column: number; contract: string; limit: number; month?: number }[] = [];
  program.columnKeys.forEach((key, j) => {
    const limit = program.columnUpper[j];
    const moves = isShared(key) && key.kind !== 'short' && limit > 0;
    if (moves && 'contract' in key) {
      const month = 'month' in key ? { month: key.month } : {};
      moving.push({
        column: j,
        contract: key.contract,
        limit: Number.isFinite(limit) ? limit : -1,
        ...month,
      });
    }
    builder.column(key, {
      lower: program.columnLower[j],
      upper: moves ? Number.POSITIVE_INFINITY : limit,
      cost: program.cost[j],
      integer: program.integer[j] === 1,
    });
  });
  builder.addOffset(program.offset);
  const take = new Map(
    [...shares].map(([contract, { lower, upper, whole }]) => [
      contract,
      builder.column({ kind: 'take', contract }, { lower, upper, integer: whole }),
    ]),
  );
  addRows(program, builder, take, isShared);
  const ceiling = allMass(plant);
  for (const { column, contract, limit, month } of moving) {
    const row = builder.row(
      { kind: 'take', contract, ...(month === undefined ? {} : { month }) },
      { upper: 0 },
    );
    builder.add(row, column, 1);
    builder.add(row, take.get(contract) as number, -(limit < 0 ? ceiling : limit));
  }
  return { program: builder.build(), take };
}

function addRows(
  program: Formulation['program'],
  builder: ProgramBuilder<TakeKey, TakeColumn>,
  take: ReadonlyMap<string, number>,
  isShared: (key: RowKey) => boolean,
): void {
  const cells = cellsByRow(program);
  program.rowKeys.forEach((key, i) => {
    const [lower, upper] = [program.rowLower[i], program.rowUpper[i]];
    const column = isShared(key) && 'contract' in key ? take.get(key.contract) : undefined;
    const add = (side: { lower?: number; upper?: number }, moved = 0) => {
      const row = builder.row(key, side);
      for (const [j, value] of cells[i]) builder.add(row, j, value);
      if (column !== undefined && moved !== 0) builder.add(row, column, -moved);
    };
    if (column === undefined) add({ lower, upper });
    else if (lower === upper) add({ lower: 0, upper: 0 }, lower);
    else {
      if (Number.isFinite(lower)) add({ lower: 0 }, lower);
      if (Number.isFinite(upper)) add({ upper: 0 }, upper);
    }
  });
}
