import { objectiveAt } from '../../program/linear-program.js';
import { type Best, VALUE_TOLERANCE } from './best.js';
import type { BreakEvenRequest, NoBreakEven } from './break-even.js';
import { atPrices, weighedDeliveries } from './offer-program.js';
import type { OfferSolver } from './offer-solver.js';
import type { PriceParameter } from './price-parameter.js';

export interface Search extends BreakEvenRequest {
  readonly target: number;
  /** The best plan known at a price: its value is a convex function of the price. */
  readonly at: (price: number) => Best;
  readonly solver: OfferSolver;
}

export type Found =
  | {
      readonly found: true;
      readonly price: number;
      /** At the price. */
      readonly best: Best;
      readonly piece: Piece;
    }
  | { readonly found: false; readonly reason: NoBreakEven };

/** The value of one plan as the price moves, where no price meets its floor or ceiling on the way. */
export interface Line {
  readonly at: number;
  readonly value: number;
  readonly slope: number;
}

/** A range of the parameter on which every price moves on a straight line. */
export interface Piece {
  readonly from: number;
  readonly to: number;
  readonly weights: Readonly<Record<string, readonly number[]>>;
}

const MOST_TANGENTS = 200;

/**
 * The value of the plan with the offer signed is a convex function of the price: the highest of the lines of all
 * plans. It rises with the price, so where floors and ceilings bend the price, the bend at which the target is
 * first exceeded is found by halving. Between bends Newton's method goes from a price at which the target is met
 * down along tangents; each is the line of a plan, and the last one goes through the target itself. A flat part
 * (nothing delivered) has a slope of 0 and is never stepped from: the first step then is along the plan that
 * delivers the most.
 *
 * @throws Unfinished, DeclaredMissed
 */
export function searched(search: Search): Found {
  const piece = pieceOfTarget(search);
  const lines = firstLines(search, piece);
  return Array.isArray(lines)
    ? descend(search, piece, lines)
    : { found: false, reason: lines as NoBreakEven };
}

export function exceeds(best: Best, target: number): boolean {
  return best.value - target > VALUE_TOLERANCE * best.scale;
}

/** The stretch between two bends at whose right end the target is first exceeded; the last one where at none. */
function pieceOfTarget({ parameter, target, at }: Search): Piece {
  const { bends, rates } = parameter;
  let [low, high] = [0, bends.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (exceeds(at(bends[middle]), target)) high = middle;
    else low = middle + 1;
  }
  const from = bends[low - 1] ?? Number.NEGATIVE_INFINITY;
  const to = bends[low] ?? Number.POSITIVE_INFINITY;
  return { from, to, weights: bends.length === 0 ? rates : weightsWithin(parameter, from, to) };
}

/** What one unit of the parameter adds to each price inside a stretch: 0 where a floor or ceiling holds it. */
function weightsWithin({ pricesAt, rates }: PriceParameter, from: number, to: number): Piece['weights'] {
  const [a, b] = inside(from, to);
  const [low, high] = [pricesAt(a), pricesAt(b)];
  return Object.fromEntries(
    Object.entries(rates).map(([material, own]) => [
      material,
      own.map((rate, t) => (high[material][t] === low[material][t] ? 0 : rate)),
    ]),
  );
}

function inside(from: number, to: number): [number, number] {
  if (from === Number.NEGATIVE_INFINITY) return [to - 2, to - 1];
  if (to === Number.POSITIVE_INFINITY) return [from + 1, from + 2];
  return [from + (to - from) / 3, from + ((to - from) * 2) / 3];
}

/** Lines that meet the target inside the piece, or why none does. */
function firstLines(search: Search, piece: Piece): Line[] | NoBreakEven {
  const { parameter, at, own } = search;
  if (piece.to < Number.POSITIVE_INFINITY) {
    const line = lineOf(search, piece, piece.to, at(piece.to));
    return line.slope > 0 ? [line] : 'floor';
  }
  const start = Math.max(parameter.own, piece.from);
  const best = start === parameter.own ? own : at(start);
  const line = lineOf(search, piece, start, best);
  if (line.slope > 0) return [line];
  if (exceeds(best, search.target)) return 'any price';
  return furthestLine(search, piece, start);
}

export function lineOf({ program }: Pick<Search, 'program'>, piece: Piece, price: number, best: Best): Line {
  const slope = weighedDeliveries(program, best.primal, piece.weights);
  const least =
    VALUE_TOLERANCE *
    weighedDeliveries(
      program,
      best.primal.map(() => 1),
      piece.weights,
    );
  return { at: price, value: best.value, slope: slope > least ? slope : 0 };
}

/** The plan with the largest receipts by unit of price, whatever it costs. */
function furthestLine(search: Search, piece: Piece, price: number): Line[] | NoBreakEven {
  const { program, parameter, solver } = search;
  const formulation = atPrices(program, parameter.pricesAt(price));
  const cost = new Float64Array(formulation.program.cost.length);
  for (const { column, material, month, paid } of program.deliveries) {
    cost[column] = paid * piece.weights[material][month];
  }
  if (cost.every((amount) => amount === 0)) return 'ceiling';
  const furthest = solver.alone(solver.counted({ ...formulation.program, offset: 0, cost }));
  if (furthest === undefined) return 'cannot be served';
  const { primal } = furthest.answer;
  const slope = weighedDeliveries(program, primal, piece.weights);
  if (
    slope <=
    1e-9 *
      weighedDeliveries(
        program,
        primal.map(() => 1),
        piece.weights,
      )
  ) {
    return 'nothing can be delivered';
  }
  return [{ at: price, value: objectiveAt(formulation.program, primal), slope }];
}

/** Where the lowest of the lines meets a value. */
function meeting(lines: readonly Line[], value: number): number {
  return Math.min(
    ...lines.filter(({ slope }) => slope > 0).map((line) => line.at + (value - line.value) / line.slope),
  );
}

function descend(search: Search, piece: Piece, first: readonly Line[]): Found {
  const { target, at } = search;
  const lines = [...first];
  for (let count = 0; count < MOST_TANGENTS; count++) {
    const price = Math.max(piece.from, meeting(lines, target));
    const best = at(price);
    const line = lineOf(search, piece, price, best);
    const isMet = !exceeds(best, target);
    if (!isMet && line.slope === 0) return { found: false, reason: 'any price' };
    // Rounding can leave a remainder that no step makes smaller.
    if (isMet || !(meeting([line], target) < price)) {
      return { found: true, price, best, piece };
    }
    lines.push(line);
  }
  throw new RangeError('the value of the plan is no convex function of the price');
}
