import type { Formulation } from '../../planning/formulate.js';
import type { ColumnKey, RowKey } from '../../planning/keys.js';
import { ProgramBuilder } from '../../program/builder.js';
import type { LinearProgram } from '../../program/linear-program.js';
import type { FeedOffer } from './feed-offer.js';

export type OfferRow =
  | { readonly kind: 'row'; readonly row: RowKey }
  | { readonly kind: 'received'; readonly offer: number; readonly month: number }
  | { readonly kind: 'others'; readonly offer: number; readonly fee: number; readonly month: number }
  | { readonly kind: 'one fee'; readonly offer: number };

export type OfferColumn =
  | { readonly kind: 'column'; readonly column: ColumnKey }
  | { readonly kind: 'share'; readonly offer: number; readonly fee: number }
  | { readonly kind: 'others'; readonly offer: number; readonly fee: number; readonly month: number };

export type OfferProgram = LinearProgram<OfferRow, OfferColumn>;

/**
 * The program in which each feed may split itself between fees, a share λ to each:
 *
 *     receive_t = committed_t + Σ_fee others_{fee,t},   0 ≤ others_{fee,t} ≤ λ_fee · others_t(fee),   Σ λ = 1
 *
 * Its value is at least that of the best single fees among those listed. `formulation` is the plant's at any
 * fees; what it pays for the feeds' tonnes is taken out and put in by the fee. Whole numbers are left out.
 */
export function offerProgram(
  { program, columns }: Formulation,
  reference: readonly number[],
  offers: readonly FeedOffer[],
  fees: readonly (readonly number[])[],
): OfferProgram {
  const builder = new ProgramBuilder<OfferRow, OfferColumn>('maximize');
  const owner = new Map<number, { offer: number; month: number }>();
  offers.forEach(({ position }, offer) => {
    columns.receive[position].forEach((column, month) => {
      owner.set(column, { offer, month });
    });
  });
  program.columnKeys.forEach((column, j) => {
    const own = owner.get(j);
    const fee = own === undefined ? 0 : offers[own.offer].paid[own.month] * reference[own.offer];
    builder.column(
      { kind: 'column', column },
      {
        lower: program.columnLower[j],
        upper: own === undefined ? program.columnUpper[j] : Number.POSITIVE_INFINITY,
        cost: program.cost[j] - fee,
      },
    );
  });
  builder.addOffset(program.offset);
  program.rowKeys.forEach((row, i) => {
    builder.row({ kind: 'row', row }, { lower: program.rowLower[i], upper: program.rowUpper[i] });
  });
  const { starts, rows, values } = program.matrix;
  for (let j = 0; j < program.cost.length; j++) {
    for (let k = starts[j]; k < starts[j + 1]; k++) builder.add(rows[k], j, values[k]);
  }
  offers.forEach((offer, i) => {
    addOffer(builder, columns.receive[offer.position], reference[i], offer, i, fees[i]);
  });
  return builder.build();
}

function addOffer(
  builder: ProgramBuilder<OfferRow, OfferColumn>,
  receive: readonly number[],
  reference: number,
  offer: FeedOffer,
  i: number,
  fees: readonly number[],
): void {
  const { paid, committed, isCommittedAtFee } = offer;
  const income = paid.reduce((sum, factor, t) => sum + factor * committed[t], 0);
  // With a fee of its own for the committed mass, the offset of the program has taken the reference fee off it.
  if (!isCommittedAtFee) builder.addOffset(income * reference);
  const one = builder.row({ kind: 'one fee', offer: i }, { lower: 1, upper: 1 });
  const received = receive.map((column, month) => {
    const row = builder.row(
      { kind: 'received', offer: i, month },
      { lower: committed[month], upper: committed[month] },
    );
    builder.add(row, column, 1);
    return row;
  });
  for (const fee of fees) {
    const share = builder.column(
      { kind: 'share', offer: i, fee },
      { cost: isCommittedAtFee ? fee * income : 0 },
    );
    builder.add(one, share, 1);
    offer.othersAt(fee).forEach((mass, month) => {
      if (mass === 0) return;
      const others = builder.column({ kind: 'others', offer: i, fee, month }, { cost: paid[month] * fee });
      builder.add(received[month], others, -1);
      const limit = builder.row({ kind: 'others', offer: i, fee, month }, { upper: 0 });
      builder.add(limit, others, 1);
      builder.add(limit, share, -mass);
    });
  }
}
