import type { Formulation } from '../../planning/formulate.js';
import type { Plant } from '../../plant/plant.js';
import { slopeAlong } from '../../program/affine-change.js';
import type { Solver } from '../../solver/choose.js';
import type { SolveLimits } from '../../solver/port.js';
import { isPromise } from '../limits/plan-limit.js';
import { planLimits } from '../limits/plan-limits.js';
import { withoutCalendarBounds } from '../limits/without-calendar-bounds.js';
import type { PlannedAnswer } from '../plan-answer.js';
import { openRanger, type Ranger } from '../ranging/ranger.js';
import type { Explanation, Rent, WouldTake } from './explanation.js';
import { firmnessOf } from './firmness.js';
import { forcedIn } from './forced-in.js';
import { NOTHING, nearestIdleOutlet } from './idle-outlet.js';
import { bindingLimits, byReach, rentOf } from './rents.js';
import { stepAccounts, worthAccounts } from './step-accounts.js';
import { type UnusedOption, unusedOptions } from './unused-option.js';
import { answered, entryOf, isOpen, riseToComeIn, usedOf } from './would-take.js';

/** What a few sentences on a plan need. Figures as in Explanation. */
export interface BriefExplanation extends Pick<Explanation, 'worth' | 'steps' | 'firmness'> {
  /** With those of which more brings money, on that side, and of promises that cost, on the other. */
  readonly rents: readonly Rent[];
  readonly idleOutlet?: WouldTake;
  /** Whether the plan has whole numbers: all is for its staffing. */
  readonly staffed: boolean;
}

/** The brief form of an explanation in full. */
export function briefOf(plant: Plant, explanation: Explanation): BriefExplanation {
  const { worth, steps, firmness, rents, wouldTake, staffing } = explanation;
  const idleOutlet = nearestIdleOutlet(plant, wouldTake);
  return {
    worth,
    steps,
    firmness,
    rents,
    ...(idleOutlet === undefined ? {} : { idleOutlet }),
    staffed: staffing !== undefined,
  };
}

/**
 * The brief form by itself: only what can be among the sentences is solved for. Nothing where the plan's program
 * does not solve again.
 */
export function explainBriefly(
  answer: PlannedAnswer,
  solver: Solver,
  limits: SolveLimits = {},
): BriefExplanation | undefined {
  const { solved, plan } = answer;
  const formulation = withoutCalendarBounds(solved.formulation);
  const ranger = openRanger(formulation.program, solver, { scale: plan.statement.scale, limits });
  if (ranger === undefined) return undefined;
  try {
    const idleOutlet = idleOutletOf(formulation, ranger, solved.primal);
    return {
      worth: worthAccounts(solved),
      steps: stepAccounts(solved),
      firmness: firmnessOf(formulation, ranger, solved.primal).entries,
      rents: tellingRents(formulation, ranger),
      ...(idleOutlet === undefined ? {} : { idleOutlet }),
      staffed: answer.whole !== undefined,
    };
  } finally {
    ranger.close();
  }
}

/**
 * The value is concave in a limit, so that any dual lies between the slopes of its two sides: where the dual is
 * not above 0, more brings nothing; where it is not below 0, less saves nothing.
 */
function tellingRents(formulation: Formulation, ranger: Ranger): Rent[] {
  const limits = planLimits(formulation);
  const rents = bindingLimits(formulation, ranger, limits).flatMap((limit) => {
    const dual = slopeAlong(ranger.program, limit.change, ranger);
    const asked = {
      more: dual > ranger.tolerance,
      less: dual < -ranger.tolerance && isPromise(limit.key),
    };
    if (!asked.more && !asked.less) return [];
    const rent = rentOf(formulation, ranger, limits, limit, asked);
    return rent === 'unanswered' ? [] : [rent];
  });
  return rents.sort(byReach);
}

function idleOutletOf(formulation: Formulation, ranger: Ranger, point: Float64Array): WouldTake | undefined {
  const asked = new Map<WouldTake, UnusedOption>();
  for (const option of unusedOptions(formulation)) {
    if (option.what.kind !== 'outlet' || option.what.tier !== 0) continue;
    const used = usedOf(option, point);
    if (!isOpen(option, used, point)) continue;
    const rise = used > NOTHING ? undefined : riseToComeIn(ranger, option, point);
    const known = rise === 'unanswered' ? undefined : rise;
    asked.set(entryOf(formulation, ranger, option, used, known, undefined), option);
  }
  const nearest = nearestIdleOutlet(formulation.plant, [...asked.keys()]);
  const option = nearest === undefined ? undefined : asked.get(nearest);
  if (nearest === undefined || option === undefined) return undefined;
  const forced = answered(() => forcedIn(formulation, ranger, option, 0));
  return forced === undefined || forced === 'unanswered' ? nearest : { ...nearest, forced };
}
