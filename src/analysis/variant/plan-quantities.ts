import type { PlanProgram } from '../../planning/formulate.js';
import type { ColumnKey } from '../../planning/keys.js';

/** What a plan does with one thing: mass, or hours of a crew. */
export type QuantityKind =
  | 'receive'
  | 'run'
  | 'sell'
  | 'deliver'
  | 'missed'
  | 'dispose'
  | 'stock'
  | 'attended';

/** What a quantity is of: over the whole horizon, or of one window, or of one month (its index). */
interface QuantityName {
  readonly kind: QuantityKind;
  /** Of the feed, step, outlet, contract, disposal, material or crew. */
  readonly id: string;
  /** Runs of a step and hours of a crew are also told by window. */
  readonly window?: string;
  readonly month?: number;
}

export interface Quantity extends QuantityName {
  readonly amount: number;
}

/** A quantity that differs between two plans. */
export interface PlanMove extends QuantityName {
  readonly before: number;
  readonly after: number;
}

/** The quantities of a point: in total (stock: of all month ends), by window, by month. */
export function planQuantities(program: PlanProgram, primal: Float64Array): Quantity[] {
  const sums = new Map<string, QuantityName & { amount: number }>();
  const add = (name: QuantityName, amount: number) => {
    const key = keyOf(name);
    const sum = sums.get(key);
    if (sum === undefined) sums.set(key, { ...name, amount });
    else sum.amount += amount;
  };
  program.columnKeys.forEach((key, j) => {
    const named = nameOf(key);
    if (named === undefined) return;
    add(named, primal[j]);
    if ('window' in key) add({ ...named, window: key.window }, primal[j]);
    if ('month' in key) add({ ...named, month: key.month }, primal[j]);
  });
  return [...sums.values()];
}

/** Relative to the largest quantity of its kind: a smaller difference is none. */
const SAME = 1e-6;

/**
 * What moves from one plan to another, largest first; hours of crews last. In total; where no total moves, from
 * window to window; where none does either, from month to month.
 */
export function movesBetween(before: readonly Quantity[], after: readonly Quantity[]): PlanMove[] {
  const moves = allMoves(before, after);
  const levels = [
    moves.filter(({ window, month }) => window === undefined && month === undefined),
    moves.filter(({ window }) => window !== undefined),
    moves.filter(({ month }) => month !== undefined),
  ];
  return levels.find((level) => level.length > 0) ?? [];
}

function allMoves(before: readonly Quantity[], after: readonly Quantity[]): PlanMove[] {
  const largest = new Map<QuantityKind, number>();
  for (const { kind, amount } of [...before, ...after]) {
    largest.set(kind, Math.max(largest.get(kind) ?? 0, Math.abs(amount)));
  }
  const [first, second] = [before, after].map((list) => new Map(list.map((one) => [keyOf(one), one])));
  const moves = [...new Set([...first.keys(), ...second.keys()])].flatMap((key): PlanMove[] => {
    const { amount: _, ...name } = (first.get(key) ?? second.get(key)) as Quantity;
    const [was, is] = [first.get(key)?.amount ?? 0, second.get(key)?.amount ?? 0];
    const isSame = Math.abs(is - was) <= SAME * (largest.get(name.kind) ?? 0);
    return isSame ? [] : [{ ...name, before: was, after: is }];
  });
  const size = ({ before: b, after: a }: PlanMove) => Math.abs(a - b);
  const isHours = ({ kind }: PlanMove) => (kind === 'attended' ? 1 : 0);
  return moves.sort((a, b) => isHours(a) - isHours(b) || size(b) - size(a));
}

function keyOf({ kind, id, window, month }: QuantityName): string {
  return `${kind} ${id} ${window ?? ''} ${month ?? ''}`;
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
