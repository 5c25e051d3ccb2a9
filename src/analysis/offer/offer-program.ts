import { discountFactor } from '../../planning/discount.js';
import { type Formulation, formulate } from '../../planning/formulate.js';
import type { Plant, PlantContract } from '../../plant/plant.js';

/** A month's delivery of one material to the offer's buyer, as a column of the program. */
export interface Delivery {
  readonly column: number;
  readonly material: string;
  readonly month: number;
  /** What a unit of money received for it counts at the start of the horizon. */
  readonly paid: number;
}

/** The program of a plant with the offer signed. */
export interface OfferProgram {
  readonly formulation: Formulation;
  readonly contract: PlantContract;
  readonly deliveries: readonly Delivery[];
}

type Prices = Readonly<Record<string, readonly number[]>>;

/** @throws RangeError where the plant has no contract of that id. */
export function offerProgram(
  plant: Plant,
  id: string,
  tellShortMonths: ReadonlySet<string> = new Set(),
): OfferProgram {
  const position = plant.contracts.findIndex((contract) => contract.id === id);
  if (position < 0) throw new RangeError(`there is no contract ${id}`);
  const formulation = formulate(plant, { tellShortMonths });
  const contract = plant.contracts[position];
  const deliveries = contract.materials.flatMap((material, m) =>
    plant.months.flatMap(({ index: month }): Delivery[] => {
      if (contract.inForce[month] === 0) return [];
      const column = formulation.columns.deliver[position][m][month];
      return [{ column, material, month, paid: discountFactor(plant, month, contract.paymentDays) }];
    }),
  );
  return { formulation, contract, deliveries };
}

/** The same with other prices: only costs change. The plant in it keeps the old ones. */
export function atPrices({ formulation, contract, deliveries }: OfferProgram, prices: Prices): Formulation {
  const cost = formulation.program.cost.slice();
  for (const { column, material, month, paid } of deliveries) {
    cost[column] += paid * (prices[material][month] - contract.price[material][month]);
  }
  return { ...formulation, program: { ...formulation.program, cost } };
}

/** The same with nothing promised and nothing delivered: the plan without the offer, in a program of one shape. */
export function withNothingSold({ formulation, contract }: OfferProgram): Formulation {
  const { program } = formulation;
  const columnUpper = program.columnUpper.slice();
  const rowLower = program.rowLower.slice();
  const rowUpper = program.rowUpper.slice();
  program.columnKeys.forEach((key, j) => {
    if ('contract' in key && key.contract === contract.id) columnUpper[j] = 0;
  });
  program.rowKeys.forEach((key, i) => {
    if (!('contract' in key) || key.contract !== contract.id) return;
    if (Number.isFinite(rowLower[i])) rowLower[i] = 0;
    if (Number.isFinite(rowUpper[i])) rowUpper[i] = 0;
  });
  return { ...formulation, program: { ...program, columnUpper, rowLower, rowUpper } };
}

/** Mass delivered in all. */
export function deliveredMass({ deliveries }: OfferProgram, primal: Float64Array): number {
  return deliveries.reduce((sum, { column }) => sum + primal[column], 0);
}

/** Σ paid·weight[material][month]·deliver: receipts by unit of a number that moves prices by the weights. */
export function weighedDeliveries(
  { deliveries }: OfferProgram,
  primal: Float64Array,
  weights: Prices,
): number {
  return deliveries.reduce(
    (sum, { column, material, month, paid }) => sum + paid * weights[material][month] * primal[column],
    0,
  );
}
