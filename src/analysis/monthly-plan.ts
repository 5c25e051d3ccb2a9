import { shortMonthsToTell } from '../planning/declared-missed.js';
import { type Formulation, formulate } from '../planning/formulate.js';
import { fewestMachineHours, optimalFace } from '../planning/optimal-face.js';
import { certifyPlan, readPlan, type SolvedPoint, scaleOf } from '../planning/read/read-plan.js';
import type { Plant } from '../plant/plant.js';
import { certify } from '../program/certificate.js';
import { hasIntegers, relaxed, withIntegersHeld } from '../program/linear-program.js';
import type { Attempt, Certified } from '../solver/answer.js';
import type { Solver } from '../solver/choose.js';
import type { EngineName, SolveLimits } from '../solver/port.js';
import { timeBudget } from '../solver/time-budget.js';
import { openWarm, type WarmSolver } from '../solver/warm-solver.js';
import type { PlanAnswer, PlannedAnswer, UnansweredAnswer, WholeNumberGap } from './plan-answer.js';

/** The gap, relative to the scale S, at which a whole-number solve stops unless the caller says otherwise. */
export const WHOLE_NUMBER_GAP = 1e-4;

/** Seconds for the solve that puts a plan right which was stopped before. */
const GRACE = 2;

/**
 * The plan that earns the most, with its proof; of plans of equal value one with the fewest machine-hours. A plan that
 * declares delivered tonnes missed is none: contracts whose tonnes it so declares are told apart by whole numbers, until
 * there is none.
 *
 * @param limits for all solves together.
 * @throws nothing for an answer: no plan and no certified answer are answers.
 */
export function planMonths(plant: Plant, solver: Solver, limits: SolveLimits = {}): PlanAnswer {
  const left = timeBudget(limits);
  const told = new Set<string>();
  let asked = left();
  for (let solves = 0; ; ) {
    const answer = solveFormulation(formulate(plant, { tellShortMonths: told }), solver, asked);
    if (answer.status !== 'optimal' && answer.status !== 'stopped') return answer;
    solves += answer.solves;
    const declared = shortMonthsToTell(plant, answer.solved.formulation.columns, answer.solved.primal);
    if (declared.size === 0) return { ...answer, solves };
    for (const contract of declared) told.add(contract);
    asked = answer.status === 'stopped' ? { ...limits, seconds: GRACE, cancelled: undefined } : left();
  }
}

/** Solves one formulation to a certified plan. */
export function solveFormulation(
  formulation: Formulation,
  solver: Solver,
  limits: SolveLimits = {},
): PlanAnswer {
  const { program } = formulation;
  const left = timeBudget(limits);
  const warm = openWarm(solver, solver.enginesFor(relaxed(program))[0]);
  try {
    const gap = hasIntegers(program) ? gapOnScale(formulation, warm, left()) : undefined;
    const answer =
      gap === undefined ? warm.solve(program, left()) : solver.solve(program, { ...left(), ...gap });
    if (answer.kind === 'infeasible') return { status: 'infeasible' };
    const best = answer.kind === 'solved' ? answer : answer.kind === 'stopped' ? answer.best : undefined;
    if (best === undefined) return unanswered(answer.attempts);
    const status = answer.kind === 'solved' ? 'optimal' : 'stopped';
    return finish({ formulation, solver, warm }, best, status, answer.attempts);
  } finally {
    warm.close();
  }
}

/** The gap that the caller allows, in money: relative to S at the relaxation's plan, near which the answer lies. */
function gapOnScale(
  formulation: Formulation,
  warm: WarmSolver,
  limits: SolveLimits,
): Pick<SolveLimits, 'gap' | 'absoluteGap'> {
  const { gap = WHOLE_NUMBER_GAP } = limits;
  const relaxation = warm.solve(relaxed(formulation.program), { ...limits, onProgress: undefined });
  if (relaxation.kind !== 'solved') return { gap };
  return { gap: 0, absoluteGap: gap * scaleOf(formulation, relaxation.answer.primal) };
}

/** A formulation at work: whole numbers go to the solver, everything continuous to the warm one. */
interface Work {
  readonly formulation: Formulation;
  readonly solver: Solver;
  readonly warm: WarmSolver;
}

function finish(
  { formulation, solver, warm }: Work,
  best: Certified,
  status: 'optimal' | 'stopped',
  attempts: readonly Attempt[],
): PlanAnswer {
  const whole = hasIntegers(formulation.program);
  const held = whole ? withIntegersHeld(formulation.program, best.answer.primal) : formulation.program;
  const continuous = whole ? warm.solve(held) : undefined;
  const base = continuous === undefined ? best : continuous.kind === 'solved' ? continuous : undefined;
  if (base === undefined) return unanswered(continuous?.attempts ?? attempts);

  const heldFormulation = { ...formulation, program: held };
  const basis = whole ? undefined : warm.basis();
  const first = { primal: base.answer.primal, rowDual: base.rowDual };
  const { point, proof } = fewestHours(heldFormulation, warm, first);
  if (!proof.accepted) return unanswered([...attempts, uncertified(base, proof)]);
  const certificate = whole ? certifyWhole(formulation, point.primal, best.rowDual) : proof;
  const planned: Omit<PlannedAnswer, 'whole'> = {
    status,
    plan: readPlan(heldFormulation, point, certificate),
    engine: engineOf(solver, best.engine),
    solves: warm.solves + (whole ? 2 : 0),
    solved: { formulation: heldFormulation, ...point, ...(basis === undefined ? {} : { basis }) },
  };
  return whole ? { ...planned, whole: wholeNumberGap(certificate, best.answer.bound) } : planned;
}

/** The second solve, on the optimal face. Where it does not certify the first point stands. */
function fewestHours(formulation: Formulation, warm: WarmSolver, first: SolvedPoint) {
  const { plant, program, columns } = formulation;
  const primal = withinBounds(formulation, first.primal);
  const face = optimalFace(program, primal, first.rowDual);
  const answer = warm.solve(fewestMachineHours(plant, columns, face));
  if (answer.kind === 'solved') {
    const point = { primal: withinBounds(formulation, answer.answer.primal), rowDual: first.rowDual };
    const proof = certifyPlan(formulation, point);
    if (proof.accepted) return { point, proof };
  }
  const point = { ...first, primal };
  return { point, proof: certifyPlan(formulation, point) };
}

/** The gap that the relaxation's duals prove is the caller's to judge: here it is only stated. */
function certifyWhole(formulation: Formulation, primal: Float64Array, relaxationDual: Float64Array) {
  const options = { scale: scaleOf(formulation, primal), gap: Number.POSITIVE_INFINITY };
  return certify(formulation.program, { primal, rowDual: relaxationDual }, options);
}

function wholeNumberGap(
  certificate: {
    readonly gap?: number;
    readonly bound?: number;
    readonly objective: number;
    readonly scale: number;
  },
  claimedBound: number | undefined,
): WholeNumberGap {
  const { gap = Number.POSITIVE_INFINITY, bound = Number.POSITIVE_INFINITY, objective, scale } = certificate;
  const proved = { proved: gap, provedBound: bound };
  if (claimedBound === undefined) return proved;
  return { ...proved, claimed: Math.max(0, claimedBound - objective) / scale, claimedBound };
}

/** Clears the solver's last-digit trespasses; the certificate then judges what is shown. */
function withinBounds(formulation: Formulation, primal: Float64Array): Float64Array {
  const { columnLower, columnUpper } = formulation.program;
  return primal.map((value, j) => Math.min(Math.max(value, columnLower[j]), columnUpper[j]));
}

function engineOf(solver: Solver, name: EngineName): PlannedAnswer['engine'] {
  const version = solver.engines.find((engine) => engine.name === name)?.version ?? '';
  return { name, version };
}

function uncertified(best: Certified, certificate: Certified['certificate']): Attempt {
  return { engine: best.engine, outcome: 'uncertified', certificate };
}

function unanswered(attempts: readonly Attempt[]): UnansweredAnswer {
  return {
    status: 'no certified answer',
    attempts: attempts.map(({ engine, outcome }) => ({ engine, outcome })),
  };
}
