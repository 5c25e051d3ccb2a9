import type { Plan } from '../../planning/plan.js';
import { certifyPlan, readPlan } from '../../planning/read/read-plan.js';
import type { Plant } from '../../plant/plant.js';
import { type Bridge, bridge } from '../comparison/bridge.js';
import { movesBetween, type PlanMove, planQuantities, type Quantity } from '../variant/plan-quantities.js';
import type { Best } from './best.js';
import type { OfferSolver } from './offer-solver.js';
import { plainest } from './plainest.js';

/** What signing changes: the best plan without the offer and the best with it, side by side. */
export interface Displacement {
  readonly without: Plan;
  readonly with: Plan;
  /** From the margin without to the margin with, by effects that add up. Plain money over the horizon. */
  readonly bridge: Bridge;
  /** Over the horizon: feeds, steps, outlets, contracts, waste, stocks, crews that differ; the largest first. */
  readonly moves: readonly PlanMove[];
  /** Machine-hours that differ. */
  readonly machines: readonly MachineMove[];
  /** The same month by month; each month's bridge adds up by itself. */
  readonly months: readonly DisplacedMonth[];
}

export interface MachineMove {
  readonly machine: string;
  readonly before: number;
  readonly after: number;
}

export interface DisplacedMonth {
  readonly month: string;
  readonly bridge: Bridge;
  readonly moves: readonly PlanMove[];
  readonly machines: readonly MachineMove[];
}

/** Of plans of equal value both are those with the fewest machine-hours. @throws Unfinished */
export function displacement(
  plant: Plant,
  id: string,
  without: Best,
  signed: Best,
  solver: OfferSolver,
): Displacement {
  const [before, after] = [plainest(without, solver), plainest(signed, solver)];
  const [first, second] = [unsigned(planOf(before), id), planOf(after)];
  const quantities: [Quantity[], Quantity[]] = [
    planQuantities(before.formulation.program, before.primal),
    planQuantities(after.formulation.program, after.primal),
  ];
  return {
    without: first,
    with: second,
    bridge: bridge({ plant, plan: first }, { plant, plan: second }),
    moves: movesBetween(...quantities),
    machines: machineMoves(plant, first, second),
    months: plant.months.map(({ index, label }) => {
      const [one, other] = [monthOf(first, index), monthOf(second, index)];
      return {
        month: label,
        bridge: bridge({ plant, plan: one }, { plant, plan: other }),
        moves: movesBetween(inMonth(quantities[0], index), inMonth(quantities[1], index)),
        machines: machineMoves(plant, one, other),
      };
    }),
  };
}

/** The quantities of one month, as totals. */
function inMonth(quantities: readonly Quantity[], month: number): Quantity[] {
  return quantities.flatMap(({ month: own, ...quantity }) => (own === month ? [quantity] : []));
}

/** One month of a plan, as a plan of that month. */
function monthOf(plan: Plan, t: number): Plan {
  const month = plan.months[t];
  const { statement } = plan;
  return {
    ...plan,
    months: [month],
    statement: {
      ...statement,
      lines: statement.lines.map((line) => ({ ...line, byMonth: [line.byMonth[t]], total: line.byMonth[t] })),
      byMonth: [statement.byMonth[t]],
      margin: statement.byMonth[t],
    },
    worth: plan.worth.map((worth) => ({
      ...worth,
      byMonth: [worth.byMonth[t]],
      presentValue: [worth.presentValue[t]],
    })),
    massBalance: {
      ...plan.massBalance,
      stockChange: month.stocks.reduce((sum, { opening, closing }) => sum + closing - opening, 0),
    },
  };
}

function planOf({ formulation, primal, rowDual }: Best): Plan {
  return readPlan(formulation, { primal, rowDual }, certifyPlan(formulation, { primal, rowDual }));
}

/** The plan without the offer was made in a program that has it, with nothing promised. */
function unsigned(plan: Plan, id: string): Plan {
  const months = plan.months.map((month) => ({
    ...month,
    contracts: month.contracts.filter(({ contract }) => contract !== id),
  }));
  return { ...plan, months };
}

/** Machine-hours below which nothing differs. */
const NOTHING = 1e-6;

function machineMoves(plant: Plant, before: Plan, after: Plan): Displacement['machines'] {
  return plant.machines.flatMap(({ id }) => {
    const hours = (plan: Plan) =>
      plan.months.reduce(
        (sum, { machines }) => sum + (machines.find(({ machine }) => machine === id)?.hours ?? 0),
        0,
      );
    const [first, second] = [hours(before), hours(after)];
    return Math.abs(second - first) <= NOTHING ? [] : [{ machine: id, before: first, after: second }];
  });
}
