import { formulate } from '../../planning/formulate.js';
import type { Plant } from '../../plant/plant.js';
import { elasticProgram } from '../../program/elastic.js';
import type { Solver } from '../../solver/choose.js';
import type { SolveLimits } from '../../solver/port.js';
import { openWarm } from '../../solver/warm-solver.js';
import { withoutCalendarBounds } from '../limits/without-calendar-bounds.js';
import { cheapestRepair } from './cheapest-repair.js';
import type { ConflictAnswer } from './conflict.js';
import { irreducibleConflict, type Membership } from './irreducible.js';
import { conflictMembers, type Member } from './members.js';
import { obviousConflicts } from './obvious.js';
import { repairWeights } from './repair-weights.js';

/**
 * Why a plant has no plan: an irreducible set of promises and limits, the conflicts that sums alone show, and the
 * cheapest repair with its plan. Whole numbers play no part: a staffing of all days fulfils whatever one can. For a
 * plant that has a plan the conflict is empty and nothing is repaired.
 */
export function explainConflict(plant: Plant, solver: Solver, limits: SolveLimits = {}): ConflictAnswer {
  const formulation = withoutCalendarBounds(formulate(plant));
  const members = conflictMembers(formulation);
  const elastic = elasticProgram(
    formulation.program,
    members.flatMap(({ bounds }) => bounds),
  );
  const warm = openWarm(solver);
  try {
    const found = irreducibleConflict(elastic, membershipOf(members), warm);
    const obvious = obviousConflicts(plant);
    if (found?.length === 0) return { conflict: [], obvious, solves: warm.solves };
    const repaired = cheapestRepair(formulation, members, repairWeights(plant), solver, limits);
    return {
      ...(found === undefined ? {} : { conflict: found.map((member) => withoutBounds(members[member])) }),
      obvious,
      ...(repaired === undefined ? {} : { repair: repaired.repair }),
      solves: warm.solves + (repaired?.solves ?? 0),
    };
  } finally {
    warm.close();
  }
}

/** The irreducible set alone, without a repair: a few warm solves. Empty for a plant that has a plan. */
export function conflictOf(plant: Plant, solver: Solver): Pick<ConflictAnswer, 'conflict' | 'solves'> {
  const formulation = withoutCalendarBounds(formulate(plant));
  const members = conflictMembers(formulation);
  const bounds = members.flatMap((member) => member.bounds);
  const warm = openWarm(solver);
  try {
    const found = irreducibleConflict(
      elasticProgram(formulation.program, bounds),
      membershipOf(members),
      warm,
    );
    const conflict = found?.map((member) => withoutBounds(members[member]));
    return { ...(conflict === undefined ? {} : { conflict }), solves: warm.solves };
  } finally {
    warm.close();
  }
}

function membershipOf(members: readonly Member[]): Membership {
  let next = 0;
  return members.map(({ bounds }) => bounds.map(() => next++));
}

function withoutBounds({ limit, unit, amount }: Member) {
  return { limit, unit, amount };
}
