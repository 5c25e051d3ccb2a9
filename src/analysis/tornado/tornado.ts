import type { Problem } from '../../issue/problem.js';
import { formulate } from '../../planning/formulate.js';
import { CERTIFICATE_TOLERANCE, primalViolation } from '../../program/certificate.js';
import { objectiveAt } from '../../program/linear-program.js';
import type { Solver } from '../../solver/choose.js';
import { planMonths } from '../monthly-plan.js';
import type { PlannedAnswer } from '../plan-answer.js';
import { figuresOf, ownValue, type Parameter, withParameter } from '../variant/parameter.js';
import { movesBetween, type PlanMove, planQuantities, type Quantity } from '../variant/plan-quantities.js';
import { readVariant } from '../variant/read-variant.js';

/** One number, or several tied together, and how far it may go each way. */
export interface TornadoItem {
  readonly parameter: Parameter;
  readonly low: number;
  readonly high: number;
}

export interface TornadoAnswer {
  /** `partial`: stopped before all numbers were asked; the bars are those of the first ones. */
  readonly status: 'complete' | 'partial';
  /** Present value of the scenario as it is. */
  readonly base: number;
  /** Widest swing first; those without a swing (a side without a plan) last. */
  readonly bars: readonly TornadoBar[];
  readonly solves: number;
}

export interface TornadoBar {
  readonly pointers: readonly string[];
  readonly kind: Parameter['kind'];
  /** Where the scenario stands; absent where several numbers that differ are tied together by value. */
  readonly own?: number;
  readonly low: TornadoSide;
  readonly high: TornadoSide;
  /** |value at high − value at low|, each with the best plan; absent where a side has none. */
  readonly swing?: number;
}

export type TornadoSide =
  | {
      readonly status: 'planned';
      readonly at: number;
      readonly value: number;
      /** What the plan of the scenario as it is would lose if it were not changed; absent where it cannot be kept. */
      readonly lossUnchanged?: number;
      /** From the plan of the scenario as it is to this one. */
      readonly moves: readonly PlanMove[];
    }
  | { readonly status: 'infeasible' | 'no certified answer'; readonly at: number }
  | { readonly status: 'invalid'; readonly at: number; readonly problems: readonly Problem[] };

export type TornadoOutcome =
  | TornadoAnswer
  | { readonly status: 'problems'; readonly problems: readonly Problem[] }
  | { readonly status: 'infeasible' | 'no certified answer' | 'cancelled' };

export interface TornadoHooks {
  readonly cancelled?: () => boolean;
  readonly onProgress?: (progress: { readonly done: number; readonly of: number }) => void;
}

/** Low and high at ± a share around where each number stands, tied together as a factor. */
export function withinShare(pointers: readonly string[], share: number): TornadoItem {
  return { parameter: { pointers, kind: 'factor' }, low: 1 - share, high: 1 + share };
}

/** How much each number matters: the best plan's value at its low and its high, all others as they are. */
export function tornado(
  document: unknown,
  items: readonly TornadoItem[],
  solver: Solver,
  hooks: TornadoHooks = {},
): TornadoOutcome {
  const variant = readVariant(document);
  if (!variant.ok) return { status: 'problems', problems: variant.problems };
  const problems = items.flatMap(({ parameter }) => {
    const found = figuresOf(document, parameter);
    return found.ok ? [] : found.problems;
  });
  if (problems.length > 0) return { status: 'problems', problems };
  const plan = planMonths(variant.plant, solver, { cancelled: hooks.cancelled });
  if (plan.status === 'infeasible') return { status: 'infeasible' };
  if (hooks.cancelled?.() === true) return { status: 'cancelled' };
  if (plan.status !== 'optimal') return { status: 'no certified answer' };
  const base = baseOf(plan);
  const counted = { solves: plan.solves };
  const bars: TornadoBar[] = [];
  for (const [i, item] of items.entries()) {
    const bar = barOf(document, item, base, solver, hooks, counted);
    if (bar === undefined) break;
    bars.push(bar);
    hooks.onProgress?.({ done: i + 1, of: items.length });
  }
  return {
    status: bars.length === items.length ? 'complete' : 'partial',
    base: base.value,
    bars: bars.sort((a, b) => (b.swing ?? -1) - (a.swing ?? -1)),
    solves: counted.solves,
  };
}

interface Base {
  readonly value: number;
  readonly primal: Float64Array;
  readonly columns: number;
  readonly quantities: readonly Quantity[];
}

function baseOf({ plan, solved }: PlannedAnswer): Base {
  const { program } = solved.formulation;
  return {
    value: plan.statement.presentValue,
    primal: solved.primal,
    columns: program.cost.length,
    quantities: planQuantities(program, solved.primal),
  };
}

/** Undefined where it was cancelled. */
function barOf(
  document: unknown,
  { parameter, low, high }: TornadoItem,
  base: Base,
  solver: Solver,
  hooks: TornadoHooks,
  counted: { solves: number },
): TornadoBar | undefined {
  const found = figuresOf(document, parameter);
  if (!found.ok) return undefined;
  const side = (at: number) =>
    hooks.cancelled?.() === true
      ? undefined
      : sideAt(withParameter(document, parameter, found.figures, at), at, base, solver, hooks, counted);
  const [below, above] = [side(low), side(high)];
  if (below === undefined || above === undefined) return undefined;
  const own = ownValue(parameter, found.figures);
  return {
    pointers: parameter.pointers,
    kind: parameter.kind,
    ...(own === undefined ? {} : { own }),
    low: below,
    high: above,
    ...(below.status === 'planned' && above.status === 'planned'
      ? { swing: Math.abs(above.value - below.value) }
      : {}),
  };
}

function sideAt(
  document: unknown,
  at: number,
  base: Base,
  solver: Solver,
  { cancelled }: TornadoHooks,
  counted: { solves: number },
): TornadoSide | undefined {
  const variant = readVariant(document);
  if (!variant.ok) return { status: 'invalid', at, problems: variant.problems };
  const answer = planMonths(variant.plant, solver, { cancelled });
  if (answer.status === 'infeasible') return { status: 'infeasible', at };
  if (cancelled?.() === true) return undefined;
  if (answer.status !== 'optimal') return { status: 'no certified answer', at };
  counted.solves += answer.solves;
  const value = answer.plan.statement.presentValue;
  const { formulation, primal } = answer.solved;
  const kept = keptValue(base, formulate(variant.plant));
  return {
    status: 'planned',
    at,
    value,
    ...(kept === undefined ? {} : { lossUnchanged: Math.max(0, value - kept) }),
    moves: movesBetween(base.quantities, planQuantities(formulation.program, primal)),
  };
}

/** The value of the plan as it is under other figures; undefined where it breaks a limit there. */
function keptValue(base: Base, { program }: ReturnType<typeof formulate>): number | undefined {
  if (program.cost.length !== base.columns) return undefined;
  if (primalViolation(program, base.primal).amount > CERTIFICATE_TOLERANCE) return undefined;
  return objectiveAt(program, base.primal);
}
