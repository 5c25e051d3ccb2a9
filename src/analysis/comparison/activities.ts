import type { Plan, StatementLine } from '../../planning/plan.js';
import type { Plant } from '../../plant/plant.js';

/** Something that is done and what it brings (positive) or costs (negative), over the horizon, plain money. */
export interface Activity {
  readonly side: 'business' | 'cost';
  /** What it is, the same in both scenarios where it is the same thing. */
  readonly key: string;
  readonly line: StatementLine | 'feed' | 'outlet' | 'contract';
  readonly id: string;
  readonly quantity: number;
  readonly amount: number;
}

/**
 * The margin as activities, which add up to it: business with each feed (receipts), outlet and contract (receipts
 * less freight and packing, so that its price is the net one), and the other cost lines, each with the quantity that
 * drives it.
 */
export function activitiesOf(plant: Plant, plan: Plan): Activity[] {
  const business = [...feeds(plan), ...outlets(plan, plant), ...contracts(plan, plant)];
  const costs = COST_LINES.map(([line, quantityOf]): Activity => {
    const amount = plan.statement.lines.find((each) => each.line === line)?.total ?? 0;
    return { side: 'cost', key: line, line, id: line, quantity: quantityOf(plan, plant), amount };
  });
  return [...business, ...costs];
}

const sum = (figures: readonly number[]): number => figures.reduce((total, figure) => total + figure, 0);
const received = (plan: Plan) => sum(plan.months.flatMap(({ receipts }) => receipts.map(({ mass }) => mass)));
const run = (plan: Plan) => sum(plan.months.flatMap(({ steps }) => steps.map(({ mass }) => mass)));

/** Each cost line and its quantity: mass, kWh, kW, hours, or months. */
const COST_LINES: readonly (readonly [StatementLine, (plan: Plan, plant: Plant) => number])[] = [
  ['change in stock value', (plan) => plan.massBalance.stockChange],
  ['haulage', received],
  ['power', (plan) => sum(plan.months.map(({ energy }) => energy.total))],
  ['demand charge', (plan) => sum(plan.months.map(({ energy }) => energy.peak ?? 0))],
  ['wages', (plan) => sum(plan.months.flatMap(({ crews }) => crews.map(({ hours }) => hours)))],
  ['wear', run],
  ['disposal', (plan) => sum(plan.months.flatMap(({ disposals }) => disposals.map(({ mass }) => mass)))],
  ['holding', (plan) => sum(plan.months.flatMap(({ stocks }) => stocks.map(({ closing }) => closing)))],
  [
    'shortfall charges',
    (plan) =>
      sum(
        plan.months.flatMap(({ contracts }) =>
          contracts.map(({ missed, missedTerm }) => missed + missedTerm),
        ),
      ),
  ],
  ['fixed costs', (plan) => plan.months.length],
];

function feeds(plan: Plan): Activity[] {
  return gathered(
    'feed',
    plan.months.flatMap(({ receipts }) =>
      receipts.map(({ feed, mass, income }) => ({ id: feed, quantity: mass, amount: income })),
    ),
  );
}

function outlets(plan: Plan, plant: Plant): Activity[] {
  return gathered(
    'outlet',
    plan.months.flatMap(({ month, sales }) =>
      sales.map(({ outlet: id, mass, receipts }) => {
        const { freight, packing } = named(plant.outlets, id);
        const t = monthIndex(plant, month);
        return { id, quantity: mass, amount: receipts - mass * (freight[t] + packing[t]) };
      }),
    ),
  );
}

function contracts(plan: Plan, plant: Plant): Activity[] {
  return gathered(
    'contract',
    plan.months.flatMap(({ month, contracts: all }) =>
      all.map(({ contract: id, delivered, receipts, materials }) => {
        const { freight, packing } = named(plant.contracts, id);
        const t = monthIndex(plant, month);
        const outlay = materials.map(
          ({ material, mass }) => mass * (freight[material][t] + packing[material][t]),
        );
        return { id, quantity: delivered, amount: receipts - sum(outlay) };
      }),
    ),
  );
}

function named<T extends { readonly id: string }>(list: readonly T[], id: string): T {
  const found = list.find((each) => each.id === id);
  if (found === undefined) throw new RangeError(`the plan deals with ${id}, which the plant does not have`);
  return found;
}

function monthIndex({ months }: Plant, label: string): number {
  return months.findIndex((month) => month.label === label);
}

function gathered(
  line: 'feed' | 'outlet' | 'contract',
  entries: readonly { readonly id: string; readonly quantity: number; readonly amount: number }[],
): Activity[] {
  const ids = [...new Set(entries.map(({ id }) => id))];
  return ids.map((id) => {
    const own = entries.filter((entry) => entry.id === id);
    return {
      side: 'business',
      key: `${line} ${id}`,
      line,
      id,
      quantity: sum(own.map(({ quantity }) => quantity)),
      amount: sum(own.map(({ amount }) => amount)),
    };
  });
}
