import type { PlanProgram } from '../../planning/formulate.js';
import type { ColumnKey } from '../../planning/keys.js';

/** What a plan does with one thing over the whole horizon: mass, or hours of a crew. */
export type QuantityKind =
  | 'receive'
  | 'run'
  | 'sell'
  | 'deliver'
  | 'missed'
  | 'dispose'
  | 'stock'
  | 'attended';

export interface Quantity {
  readonly kind: QuantityKind;
  /** Of the feed, step, outlet, contract, disposal, material or crew. */
  readonly id: string;
  readonly amount: number;
}

/** A quantity that differs between two plans. */
export interface PlanMove {
  readonly kind: QuantityKind;
  readonly id: string;
  readonly before: number;
  readonly after: number;
}

/** The quantities of a point, in the order in which they first appear in the program; stock is that of all month ends. */
export function planQuantities(program: PlanProgram, primal: Float64Array): Quantity[] {
  const sums = new Map<string, { kind: QuantityKind; id: string; amount: number }>();
  program.columnKeys.forEach((key, j) => {
    const named = nameOf(key);
    if (named === undefined) return;
    const at = `${named.kind} ${named.id}`;
    const sum = sums.get(at) ?? { ...named, amount: 0 };
    sum.amount += primal[j];
    sums.set(at, sum);
  });
  return [...sums.values()];
}

/** Relative to the largest quantity of its kind: a smaller difference is none. */
const SAME = 1e-6;

/** What moves from one plan to another of the same plant, largest first; hours of crews last. */
export function movesBetween(before: readonly Quantity[], after: readonly Quantity[]): PlanMove[] {
  const largest = new Map<QuantityKind, number>();
  for (const { kind, amount } of [...before, ...after]) {
    largest.set(kind, Math.max(largest.get(kind) ?? 0, Math.abs(amount)));
  }
  const moves = before.flatMap(({ kind, id, amount }, i): PlanMove[] => {
    const other = after[i].amount;
    return Math.abs(other - amount) > SAME * (largest.get(kind) ?? 0)
      ? [{ kind, id, before: amount, after: other }]
      : [];
  });
  const size = ({ before: b, after: a }: PlanMove) => Math.abs(a - b);
  const isHours = ({ kind }: PlanMove) => (kind === 'attended' ? 1 : 0);
  return moves.sort((a, b) => isHours(a) - isHours(b) || size(b) - size(a));
}

function nameOf(key: ColumnKey): { kind: QuantityKind; id: string } | undefined {
  switch (key.kind) {
    case 'receive':
      return { kind: 'receive', id: key.feed };
    case 'run':
      return { kind: 'run', id: key.step };
    case 'sell':
      return { kind: 'sell', id: key.outlet };
    case 'deliver':
      return { kind: 'deliver', id: key.contract };
    case 'missed':
    case 'missedTerm':
      return { kind: 'missed', id: key.contract };
    case 'dispose':
      return { kind: 'dispose', id: key.disposal };
    case 'stock':
      return { kind: 'stock', id: key.material };
    case 'attended':
      return { kind: 'attended', id: key.crew };
    default:
      return undefined;
  }
}
