import type { Plant } from '../../plant/plant.js';
import type { MassBalance, MaterialBalance } from '../plan.js';
import type { Amounts } from './amounts.js';

/** Mass in, out and held over the horizon, summed from the plan's quantities. */
export function massBalanceOf(plant: Plant, amounts: Amounts): MassBalance {
  const throughSteps = amounts.run.map((windows) => sum(windows.flat()));
  const materials = plant.materials.map((_, position) =>
    materialBalance(plant, amounts, throughSteps, position),
  );
  const total = (pick: (balance: MaterialBalance) => number) =>
    materials.reduce((sum, each) => sum + pick(each), 0);
  const received = total((each) => each.received);
  const out = total((each) => each.sold + each.delivered + each.disposed);
  const stockChange = total((each) => each.closing - each.opening);
  return { in: received, out, stockChange, residual: received - out - stockChange, materials };
}

function materialBalance(
  plant: Plant,
  amounts: Amounts,
  throughSteps: readonly number[],
  position: number,
): MaterialBalance {
  const material = plant.materials[position];
  const flows = {
    received: sum(
      plant.feeds.map((feed, f) => (feed.material === material.id ? sum(amounts.receive[f]) : 0)),
    ),
    made: sum(
      plant.steps.map((step, k) => {
        const share = step.yields.find((output) => output.material === material.id)?.share ?? 0;
        return share * throughSteps[k];
      }),
    ),
    used: sum(plant.steps.map((step, k) => (step.input === material.id ? throughSteps[k] : 0))),
    sold: sum(
      plant.outlets.map((outlet, o) => (outlet.material === material.id ? sum(amounts.sell[o].flat()) : 0)),
    ),
    delivered: sum(
      plant.contracts.map((contract, c) => massOf(contract.materials, material.id, amounts.deliver[c])),
    ),
    disposed: sum(
      plant.disposals.map((disposal, d) => massOf(disposal.materials, material.id, amounts.dispose[d])),
    ),
    opening: material.stock?.opening ?? 0,
    closing: amounts.stock[position].at(-1) ?? 0,
  };
  const residual =
    flows.opening +
    flows.received +
    flows.made -
    flows.used -
    flows.sold -
    flows.delivered -
    flows.disposed -
    flows.closing;
  return { material: material.id, ...flows, residual };
}

function massOf(
  materials: readonly string[],
  id: string,
  byMaterial: readonly (readonly number[])[],
): number {
  const position = materials.indexOf(id);
  return position < 0 ? 0 : byMaterial[position].reduce((sum, mass) => sum + mass, 0);
}

function sum(figures: readonly number[]): number {
  return figures.reduce((total, figure) => total + figure, 0);
}
