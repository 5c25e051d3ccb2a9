import { discountFactor } from '../../planning/discount.js';
import type { Formulation } from '../../planning/formulate.js';
import { handlingCosts } from './handling-costs.js';
import { costOf, type PricedNumber } from './priced-number.js';

/**
 * All prices and costs of a formulation. Fees to which haulers respond are left out: they move what can be had, not
 * only what it brings.
 */
export function pricedNumbers(formulation: Formulation): PricedNumber[] {
  return [...prices(formulation), ...costs(formulation), ...handlingCosts(formulation)];
}

function prices({ plant, columns }: Formulation): PricedNumber[] {
  const months = plant.months.map(({ index }) => index);
  const paid = (month: number, days: number) => discountFactor(plant, month, days);
  const outlets = plant.outlets.flatMap((outlet, o) =>
    outlet.tiers.map(
      (tier, position): PricedNumber => ({
        number: { kind: 'outletPrice', outlet: outlet.id, tier: position },
        unit: 'money by mass',
        now: tier.price,
        columns: months.map((month) => [
          { column: columns.sell[o][position][month], rate: paid(month, outlet.paymentDays) },
        ]),
        // Prices fall with volume: a step stays between its neighbours.
        ...distance('fall', tier.price, outlet.tiers[position + 1]?.price),
        ...distance('rise', tier.price, outlet.tiers[position - 1]?.price),
      }),
    ),
  );
  const contracts = plant.contracts.flatMap((contract, c) =>
    contract.materials.map(
      (material, m): PricedNumber => ({
        number: { kind: 'contractPrice', contract: contract.id, material },
        unit: 'money by mass',
        now: contract.price[material],
        columns: months.map((month) =>
          contract.inForce[month] === 0
            ? []
            : [{ column: columns.deliver[c][m][month], rate: paid(month, contract.paymentDays) }],
        ),
      }),
    ),
  );
  const feeds = plant.feeds.flatMap((feed, f): PricedNumber[] => {
    if (feed.responds) return [];
    return [
      {
        number: { kind: 'tippingFee', feed: feed.id },
        unit: 'money by mass',
        now: feed.fee,
        columns: months.map((month) => [
          { column: columns.receive[f][month], rate: paid(month, feed.paymentDays) },
        ]),
      },
    ];
  });
  return [...outlets, ...contracts, ...feeds];
}

function costs({ plant, columns }: Formulation): PricedNumber[] {
  const power = plant.windows.map((window, w) =>
    costOf(
      plant,
      {
        number: { kind: 'powerPrice', window: window.id },
        unit: 'money by energy',
        now: window.powerPrice,
      },
      (month) =>
        plant.steps.map(({ energy }, k) => ({ column: columns.run[k][w][month], amount: energy[month] })),
    ),
  );
  const wages = plant.crews.map(({ id, people, wage }, c) =>
    costOf(plant, { number: { kind: 'wage', crew: id }, unit: 'money by hour', now: wage }, (month) =>
      plant.windows.map(({ wageFactor }, w) => ({
        column: columns.attended[c][w][month],
        amount: people * wageFactor,
      })),
    ),
  );
  const wear = plant.steps.map(({ id, wear }, k) =>
    costOf(plant, { number: { kind: 'wear', step: id }, unit: 'money by mass', now: wear }, (month) =>
      plant.windows.map((_, w) => ({ column: columns.run[k][w][month] })),
    ),
  );
  const disposals = plant.disposals.map((disposal, d) => {
    const number = { kind: 'disposalCharge', disposal: disposal.id } as const;
    const now = plant.months.map(({ index: month }) =>
      Math.min(...disposal.materials.map((material) => disposal.charge[material][month])),
    );
    return costOf(plant, { number, unit: 'money by mass', now }, (month) =>
      disposal.materials.map((_, m) => ({ column: columns.dispose[d][m][month] })),
    );
  });
  const peak = {
    number: { kind: 'demandCharge' },
    unit: 'money by load',
    now: plant.demand?.charge ?? [],
  } as const;
  return [
    ...power,
    ...wages,
    ...wear,
    ...disposals,
    ...(plant.demand === undefined
      ? []
      : [costOf(plant, peak, (month) => [{ column: columns.peak[month] }])]),
  ];
}

/** How far a price is from its neighbour, in the month in which it is nearest; nothing where there is none. */
function distance(
  side: 'fall' | 'rise',
  price: readonly number[],
  neighbour: readonly number[] | undefined,
): Pick<PricedNumber, 'fall' | 'rise'> {
  if (neighbour === undefined) return {};
  return { [side]: Math.min(...price.map((amount, month) => Math.abs(amount - neighbour[month]))) };
}
