import type { Formulation } from '../../planning/formulate.js';
import type { Solver } from '../../solver/choose.js';
import type { SolveLimits } from '../../solver/port.js';
import { planLimits } from '../limits/plan-limits.js';
import { withoutCalendarBounds } from '../limits/without-calendar-bounds.js';
import type { PlannedAnswer } from '../plan-answer.js';
import { openRanger, solvesOf } from '../ranging/ranger.js';
import type { Explanation } from './explanation.js';
import { firmnessOf } from './firmness.js';
import { rentsOf } from './rents.js';
import { staffingChanges } from './staffing.js';
import { stepAccounts, worthAccounts } from './step-accounts.js';
import { wouldTake } from './would-take.js';

export interface ExplainOptions {
  readonly limits?: SolveLimits;
  /** The formulation with its whole numbers free, for what a shift more or less is worth. */
  readonly free?: Formulation;
  /** Windows for which a shift more and less is solved; 0 if absent. */
  readonly staffedWindows?: number;
}

/**
 * Explains a plan: worth and step accounts, rents, what it would take, how firm it is. With whole numbers all of
 * it holds for the staffing of the plan. Nothing where the plan's program does not solve again.
 */
export function explainPlan(
  answer: PlannedAnswer,
  solver: Solver,
  { limits = {}, free, staffedWindows = 0 }: ExplainOptions = {},
): Explanation | undefined {
  const { solved, plan } = answer;
  const formulation = withoutCalendarBounds(solved.formulation);
  const ranger = openRanger(formulation.program, solver, {
    scale: plan.statement.scale,
    limits,
  });
  if (ranger === undefined) return undefined;
  try {
    const rents = rentsOf(formulation, ranger, planLimits(formulation));
    const taken = wouldTake(formulation, ranger, solved.primal);
    const firm = firmnessOf(formulation, ranger, solved.primal);
    const staffing =
      free === undefined
        ? undefined
        : staffingChanges(free, solved.primal, solver, limits, staffedWindows, answer.whole?.claimedBound);
    return {
      worth: worthAccounts(solved),
      steps: stepAccounts(solved),
      rents: rents.rents,
      bindingWithoutRent: rents.bindingWithoutRent,
      rentsOverMonths: rents.rentsOverMonths,
      wouldTake: taken.entries,
      firmness: firm.entries,
      ...(staffing === undefined ? {} : { staffing: { asked: staffing.asked, left: staffing.left } }),
      solves: solvesOf(ranger) + (staffing?.solves ?? 0),
      unanswered: rents.unanswered + taken.unanswered + firm.unanswered,
    };
  } finally {
    ranger.close();
  }
}
