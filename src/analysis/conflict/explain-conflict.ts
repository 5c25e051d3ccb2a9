import { allMass } from '../../planning/all-mass.js';
import { shortMonthsToTell } from '../../planning/declared-missed.js';
import { formulate } from '../../planning/formulate.js';
import type { Plant } from '../../plant/plant.js';
import { elasticProgram } from '../../program/elastic.js';
import type { Solver } from '../../solver/choose.js';
import type { SolveLimits } from '../../solver/port.js';
import { openWarm } from '../../solver/warm-solver.js';
import { withoutAttendanceBounds } from '../limits/without-calendar-bounds.js';
import { cheapestRepair } from './cheapest-repair.js';
import type { ConflictAnswer, Repair } from './conflict.js';
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
  const { conflict, solves } = conflictOf(plant, solver, limits);
  const obvious = obviousConflicts(plant);
  if (conflict?.length === 0) return { conflict, obvious, solves };
  const repaired = honestRepair(plant, solver, limits);
  return {
    ...(conflict === undefined ? {} : { conflict }),
    obvious,
    ...(repaired.repair === undefined ? {} : { repair: repaired.repair }),
    solves: solves + repaired.solves,
  };
}

/** The irreducible set alone, without a repair: a few warm solves. Empty for a plant that has a plan. */
export function conflictOf(
  plant: Plant,
  solver: Solver,
  limits: SolveLimits = {},
): Pick<ConflictAnswer, 'conflict' | 'solves'> {
  const { program, members } = givingWay(plant);
  const elastic = elasticProgram(
    program,
    members.flatMap(({ bounds }) => bounds),
  );
  const warm = openWarm(solver);
  try {
    const asked = { most: allMass(plant), limits };
    const found = irreducibleConflict(elastic, membershipOf(members), warm, asked);
    const conflict = found?.map((member) => withoutBounds(members[member]));
    return { ...(conflict === undefined ? {} : { conflict }), solves: warm.solves };
  } finally {
    warm.close();
  }
}

function givingWay(plant: Plant, tellShortMonths: ReadonlySet<string> = new Set()) {
  const formulation = withoutAttendanceBounds(formulate(plant, { tellShortMonths }));
  return { formulation, program: formulation.program, members: conflictMembers(formulation) };
}

/** The cheapest repair whose plan declares no delivered tonnes missed. */
function honestRepair(
  plant: Plant,
  solver: Solver,
  limits: SolveLimits,
): { readonly repair?: Repair; readonly solves: number } {
  const weights = repairWeights(plant);
  const told = new Set<string>();
  for (let solves = 0; ; ) {
    const { formulation, members } = givingWay(plant, told);
    const found = cheapestRepair(formulation, members, weights, solver, limits);
    if (found === undefined) return { solves };
    solves += found.solves;
    const declared = declaredIn(plant, found.repair);
    if (declared.size === 0) return { repair: found.repair, solves };
    for (const contract of declared) told.add(contract);
  }
}

function declaredIn(plant: Plant, { gives, planned }: Repair): ReadonlySet<string> {
  if (planned === undefined) return new Set();
  const contracts = plant.contracts.map((contract) => ({
    ...contract,
    monthlyMin: contract.monthlyMin.map((min, month) => {
      const given = gives.find(
        ({ limit }) =>
          limit.kind === 'contractMinimum' && limit.contract === contract.id && limit.month === month,
      );
      return given?.to ?? min;
    }),
  }));
  return shortMonthsToTell(
    { ...plant, contracts },
    planned.solved.formulation.columns,
    planned.solved.primal,
  );
}

function membershipOf(members: readonly Member[]): Membership {
  let next = 0;
  return members.map(({ bounds }) => bounds.map(() => next++));
}

function withoutBounds({ limit, unit, amount }: Member) {
  return { limit, unit, amount };
}
