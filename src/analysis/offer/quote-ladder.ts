import { changed, slopeAlong } from '../../program/affine-change.js';
import { hasIntegers } from '../../program/linear-program.js';
import { type Evaluation, tracePiecewiseLinear } from '../../program/piecewise-linear.js';
import { isFreeOfDeclaredTonnes } from '../sweep/declared-tonnes.js';
import { edgeOf, type Limit } from '../sweep/feasible-range.js';
import type { SolvedPoint } from '../sweep/solve-point.js';
import { type Best, VALUE_TOLERANCE } from './best.js';
import { type Bottleneck, newBottlenecks } from './bottlenecks.js';
import type { FirmVolume } from './firm-volume.js';
import type { OfferSolver } from './offer-solver.js';

/**
 * The receipts R(v), present value, that leave the plant as well off with a firm monthly volume v as without it:
 * R(v) = W(0) − W(v), W the value of the best plan that delivers v for nothing. Convex and piecewise linear in v
 * where the program is linear.
 */
export interface QuoteLadder {
  /** Every stretch exact; else straight lines between `samples` that were solved for. */
  readonly exact: boolean;
  /** From 0 up; each from the end of the one before. */
  readonly rungs: readonly QuoteRung[];
  /** The largest volume that the plant can serve, and the limits that stop it there. */
  readonly largest: { readonly volume: number; readonly limits: readonly Limit[] };
  /** Best plans at volume 0 and at the end of each rung. */
  readonly plans: readonly LadderPlan[];
  readonly scale: number;
}

export interface LadderPlan {
  /** Mass a full month. */
  readonly at: number;
  readonly best: Best;
}

export interface QuoteRung {
  /** Mass a full month. */
  readonly from: number;
  readonly to: number;
  /** R at both ends. */
  readonly receiptsFrom: number;
  readonly receiptsTo: number;
  /** Present value by mass unit a month. */
  readonly slope: number;
  /** What is used up at `from`, so that the tonnes of this rung cost more than those before. */
  readonly bottlenecks: readonly Bottleneck[];
}

/** Volumes that are solved for where the receipts are not convex. */
const SAMPLES = 12;

/** Shares of the largest volume by which a solve at the very edge may have to step inside. */
const STEPS_INSIDE = [0, 1e-9, 1e-8, 1e-7, 1e-6];

/** Undefined where there is no plan without the offer. @throws Unfinished, DeclaredMissed */
export function quoteLadder(firm: FirmVolume, solver: OfferSolver): QuoteLadder | undefined {
  const { formulation, change, ceiling } = firm;
  const first = solver.best(formulation, 'firm');
  if (first === undefined) return undefined;
  const edge = edgeOf({ program: formulation.program, change }, ceiling, 'maximize', (program) => {
    const integer = new Uint8Array([...solver.counted(formulation.program).integer, 0]);
    return solver.alone({ ...program, integer });
  });
  const limits = edge?.limits ?? [];
  const last = nearEdge(firm, edge?.theta ?? 0, solver);
  if (last === undefined || last.at <= MOST_ROUNDING * ceiling) {
    const plans = [{ at: 0, best: first }];
    return { exact: true, rungs: [], plans, largest: { volume: 0, limits }, scale: first.scale };
  }
  const whole = hasIntegers(first.formulation.program);
  const traced = whole ? undefined : trace(firm, { at: 0, best: first }, last, solver);
  return {
    exact: traced !== undefined,
    ...(traced ?? sampled(firm, first, last, solver)),
    largest: { volume: last.at, limits },
    scale: Math.max(first.scale, last.best.scale),
  };
}

/** Relative to all mass that can come in: a volume below it is none. */
const MOST_ROUNDING = 1e-9;

type Traced = Pick<QuoteLadder, 'rungs' | 'plans'>;

function solveAt({ formulation, change }: FirmVolume, volume: number, solver: OfferSolver): Best | undefined {
  return solver.best({ ...formulation, program: changed(formulation.program, change, volume) }, 'firm');
}

function nearEdge(firm: FirmVolume, edge: number, solver: OfferSolver): LadderPlan | undefined {
  for (const share of STEPS_INSIDE) {
    const at = edge * (1 - share);
    const best = solveAt(firm, at, solver);
    if (best !== undefined) return { at, best };
  }
  return undefined;
}

/** Undefined where a mix of two plans could declare tonnes missed that it delivers. */
function trace(
  firm: FirmVolume,
  first: LadderPlan,
  last: LadderPlan,
  solver: OfferSolver,
): Traced | undefined {
  const solved = new Map([first, last].map((each) => [each.at, each.best]));
  const evaluate = (at: number): Evaluation<Best> => {
    const best = solved.get(at) ?? solveAt(firm, at, solver);
    if (best === undefined) throw new RangeError(`no plan at a volume of ${at}, between two that have one`);
    solved.set(at, best);
    const { program } = best.formulation;
    return { at, value: best.value, slope: slopeAlong(program, firm.change, best), from: best };
  };
  const tolerance = VALUE_TOLERANCE * Math.max(first.best.scale, last.best.scale);
  const { segments } = tracePiecewiseLinear(evaluate, 0, last.at, { tolerance });
  const isHonest = segments.every(({ start, end }) =>
    isFreeBetween(firm, [start, solved.get(start) as Best], [end, solved.get(end) as Best]),
  );
  if (!isHonest) return undefined;
  const bottlenecks = newBottlenecks(
    segments.map(({ sample }) => sample.from),
    firm.formulation.plant,
  );
  const ends = segments.map(({ end }) => ({ at: end, best: solved.get(end) as Best }));
  return {
    plans: [first, ...ends],
    rungs: segments.map(({ start, end, startValue, endValue, slope }, i) => ({
      from: start,
      to: end,
      receiptsFrom: first.best.value - startValue,
      receiptsTo: first.best.value - endValue,
      slope: -slope,
      bottlenecks: bottlenecks[i],
    })),
  };
}

/** Whether no mix of two plans declares tonnes missed that it delivers. Plans that miss nothing do not. */
function isFreeBetween(
  { formulation }: FirmVolume,
  ...ends: readonly [readonly [number, Best], readonly [number, Best]]
): boolean {
  const missed = formulation.columns.missed.flat();
  if (ends.every(([, { primal }]) => missed.every((column) => primal[column] === 0))) return true;
  const [a, b] = ends.map(([at, best]) => pointOf(at, best));
  return isFreeOfDeclaredTonnes(formulation, a, b);
}

function pointOf(at: number, best: Best): SolvedPoint {
  const { primal, rowDual, value, scale } = best;
  return { at, program: best.formulation.program, primal, rowDual, value, scale };
}

function sampled(firm: FirmVolume, first: Best, last: LadderPlan, solver: OfferSolver): Traced {
  const plans = Array.from({ length: SAMPLES + 1 }, (_, i) => {
    const at = (last.at * i) / SAMPLES;
    return { at, best: i === 0 ? first : i === SAMPLES ? last.best : solveAt(firm, at, solver) };
  }).filter((plan): plan is LadderPlan => plan.best !== undefined);
  const rungs = plans.slice(1).map(({ at, best }, i) => {
    const before = plans[i];
    return {
      from: before.at,
      to: at,
      receiptsFrom: first.value - before.best.value,
      receiptsTo: first.value - best.value,
      slope: (before.best.value - best.value) / (at - before.at),
      bottlenecks: [],
    };
  });
  return { plans, rungs };
}

/** R(v): exact on an exact ladder; undefined beyond the largest volume. */
export function receiptsAt({ rungs }: QuoteLadder, volume: number): number | undefined {
  if (volume === 0) return 0;
  const rung = rungs.find(({ from, to }) => volume >= from && volume <= to * (1 + MOST_ROUNDING));
  return rung === undefined ? undefined : rung.receiptsFrom + rung.slope * (volume - rung.from);
}

/** The largest volume for which receipts of `price` by mass unit a month leave a margin, 0 where none does. */
export function largestPayingVolume({ rungs }: QuoteLadder, price: number, margin: number): number {
  let largest = 0;
  for (const { from, to, receiptsFrom, receiptsTo } of rungs) {
    const short = receiptsFrom + margin - price * from;
    const shortTo = receiptsTo + margin - price * to;
    if (shortTo <= 0) largest = to;
    else if (short <= 0 && from > 0) {
      largest = from + (to - from) * (short / (short - shortTo));
    }
  }
  return largest;
}
