import { hasIntegers, objectiveAt } from '../../program/linear-program.js';
import { atPrices, type OfferProgram, weighedDeliveries } from './offer-program.js';
import { type Best, type OfferSolver, VALUE_TOLERANCE } from './offer-solver.js';
import type { PriceParameter } from './price-parameter.js';

/** The lowest price above which signing earns more than a target, in the unit of the parameter. */
export type BreakEven = FoundBreakEven | { readonly found: false; readonly reason: NoBreakEven };

export interface FoundBreakEven {
  readonly found: true;
  readonly price: number;
  /**
   * With whole numbers, from the gaps of both plans: at `high` the target is surely met, at `low` surely not
   * exceeded; `low` is absent where the gaps leave that open.
   */
  readonly interval?: { readonly low?: number; readonly high: number };
  /** Signed at the break-even. */
  readonly best: Best;
}

export type NoBreakEven =
  /** Its minimums cannot be kept at any price. */
  | 'cannot be served'
  /** No plan delivers anything to it. */
  | 'nothing can be delivered'
  /** Its floor already earns more. */
  | 'floor'
  /** It earns more at any price of this material: others are delivered. */
  | 'any price'
  /** At its ceiling it still earns too little. */
  | 'ceiling'
  /** Its price falls as its base rises. */
  | 'falling price'
  | 'not in force'
  /** Its amounts differ and are not all above 0: no one number moves them. */
  | 'no common price'
  /** There is no plan without it to compare with. */
  | 'no plan without it';

export interface BreakEvenRequest {
  readonly program: OfferProgram;
  readonly parameter: PriceParameter;
  /** The plan without the offer, and what signing must earn above it. */
  readonly without: Best;
  readonly margin: number;
  /** Solved at the offer's own price. */
  readonly own: Best;
}

/** The value of one plan as the price moves, where no price meets its floor or ceiling on the way. */
interface Line {
  readonly at: number;
  readonly value: number;
  readonly slope: number;
}

/** A range of the parameter on which every price moves on a straight line. */
interface Piece {
  readonly from: number;
  readonly to: number;
  readonly weights: Readonly<Record<string, readonly number[]>>;
}

const MOST_TANGENTS = 200;

/** With whole numbers each tangent is a long solve. */
const MOST_WHOLE_TANGENTS = 4;
const MOST_ROUNDS = 3;

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
export function breakEven(request: BreakEvenRequest, solver: OfferSolver): BreakEven {
  const { program, parameter, own } = request;
  if (program.deliveries.length === 0) return { found: false, reason: 'not in force' };
  if (program.deliveries.some(({ material, month }) => parameter.rates[material][month] < 0)) {
    return { found: false, reason: 'falling price' };
  }
  const asked = new Map<number, Best>([[parameter.own, own]]);
  const at = (price: number): Best => {
    const known = asked.get(price);
    if (known !== undefined) return known;
    const best = solver.best(atPrices(program, parameter.pricesAt(price)), 'signed');
    if (best === undefined) throw new RangeError('a price made a plan infeasible');
    asked.set(price, best);
    return best;
  };
  let { without } = request;
  for (let round = 1; ; round++) {
    const found = searched({ ...request, without, target: without.value + request.margin, at, solver });
    // With whole numbers a plan found on the way may staff the plan without the offer better too.
    const better = solver.improved(without, 'signed');
    if (better === without || round === MOST_ROUNDS) return found;
    without = better;
  }
}

function searched(search: Search): BreakEven {
  const piece = pieceOfTarget(search);
  const lines = firstLines(search, piece);
  if (!Array.isArray(lines)) return { found: false, reason: lines as NoBreakEven };
  return isWhole(search.own) ? descendWhole(search, piece, lines) : descend(search, piece, lines);
}

interface Search extends BreakEvenRequest {
  readonly target: number;
  readonly at: (price: number) => Best;
  readonly solver: OfferSolver;
}

function exceeds(best: Best, target: number): boolean {
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

function lineOf({ program }: Search, piece: Piece, price: number, best: Best): Line {
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

function descend(search: Search, piece: Piece, first: readonly Line[]): BreakEven {
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
      return { found: true, price, best };
    }
    lines.push(line);
  }
  throw new RangeError('the value of the plan is no convex function of the price');
}

/** The same where every plan is only known to lie within a gap: until a solve shows no better plan, or often enough. */
function descendWhole(search: Search, piece: Piece, first: readonly Line[]): BreakEven {
  const { target, at } = search;
  const lines = [...first];
  let price = Math.max(piece.from, meeting(lines, target));
  let best = at(price);
  for (let count = 1; ; count++) {
    lines.push(lineOf(search, piece, price, best));
    const next = Math.max(piece.from, meeting(lines, target));
    if (count === MOST_WHOLE_TANGENTS || !(next < price - SAME_PRICE * (1 + Math.abs(price)))) {
      return { found: true, price: next, best, interval: intervalOf(search, piece, lines, next, best) };
    }
    price = next;
    best = at(price);
  }
}

/** Relative to the price: two prices nearer than this are one. */
const SAME_PRICE = 1e-6;

const MOST_STEPS_DOWN = 3;

function intervalOf(
  search: Search,
  piece: Piece,
  lines: readonly Line[],
  price: number,
  best: Best,
): NonNullable<FoundBreakEven['interval']> {
  const { without, margin, target, at } = search;
  const high = Math.max(price, meeting(lines, without.bound + margin));
  let down = price;
  let [known, { slope }] = [best, lines[lines.length - 1]];
  for (let step = 0; step < MOST_STEPS_DOWN && known.bound > target && slope > 0; step++) {
    down = Math.max(piece.from, down - (1.5 * (known.bound - target)) / slope);
    known = at(down);
    slope = lineOf(search, piece, down, known).slope;
  }
  return { ...(known.bound <= target ? { low: down } : {}), high };
}

function isWhole({ formulation }: Best): boolean {
  return hasIntegers(formulation.program);
}
