import type { Plant } from '../../plant/plant.js';
import type { Ladder, MaterialWorth, Rung } from '../plan.js';
import type { Amounts } from './amounts.js';
import { type Carried, carriedByMaterial, NOTHING_CARRIED } from './carried.js';
import { RUNG_FORMS } from './rung-forms.js';

/** A figure of a plan below it is the rounding of nothing. */
const NO_MASS = 1e-9;

/**
 * Follows whole tires down the plan's own splits. Each tonne of a rung material carries the tonnes of tire,
 * the tipping fees, the by-products (at their worth) and the costs of the steps that made it, shared among a
 * step's rung outputs by mass; a pool carries the average of what enters it, opening stock included.
 */
export function ladderOf(
  plant: Plant,
  amounts: Amounts,
  worth: readonly MaterialWorth[],
  marginByMonth: readonly number[],
): Ladder {
  let carried = plant.materials.map(() => NOTHING_CARRIED);
  const months = plant.months.map(({ index }) => {
    carried = carriedByMaterial(plant, amounts, worth, carried, index);
    return rungsOf(plant, amounts, carried, index);
  });
  return {
    total: plant.materials.flatMap(({ id }) => {
      const rungs = months.flat().filter((rung) => rung.material === id);
      return rungs.length === 0 ? [] : [rungs.reduce(addRungs)];
    }),
    months,
    rest: months.map((rungs, month) => rungs.reduce((rest, rung) => rest - rung.net, marginByMonth[month])),
  };
}

function rungsOf(plant: Plant, amounts: Amounts, carried: readonly Carried[], month: number): Rung[] {
  return plant.materials.flatMap((material, m) => {
    if (!RUNG_FORMS.has(material.form)) return [];
    const { mass, money } = leaving(plant, amounts, material.id, month);
    if (mass <= NO_MASS) return [];
    const each = carried[m];
    const rung = {
      tires: each.tires * mass,
      price: money,
      tippingFee: each.tippingFee * mass,
      byProducts: each.byProducts * mass,
      cost: each.cost * mass,
    };
    const net = rung.price + rung.tippingFee + rung.byProducts - rung.cost;
    return [{ material: material.id, mass, ...rung, net }];
  });
}

/** Mass of a material that leaves in a month, and what it brings net of freight, packing and charges. */
function leaving(
  plant: Plant,
  amounts: Amounts,
  material: string,
  month: number,
): { mass: number; money: number } {
  let mass = 0;
  let money = 0;
  const leave = (amount: number, net: number) => {
    mass += amount;
    money += amount * net;
  };
  plant.outlets.forEach((outlet, o) => {
    if (outlet.material !== material) return;
    outlet.tiers.forEach((tier, position) => {
      leave(
        amounts.sell[o][position][month],
        tier.price[month] - outlet.freight[month] - outlet.packing[month],
      );
    });
  });
  plant.contracts.forEach((contract, c) => {
    const m = contract.materials.indexOf(material);
    if (m < 0) return;
    const costs = contract.freight[material][month] + contract.packing[material][month];
    leave(amounts.deliver[c][m][month], contract.price[material][month] - costs);
  });
  plant.disposals.forEach((disposal, d) => {
    const m = disposal.materials.indexOf(material);
    if (m < 0) return;
    leave(
      amounts.dispose[d][m][month],
      -disposal.charge[material][month] - disposal.haulage[material][month],
    );
  });
  return { mass, money };
}

function addRungs(a: Rung, b: Rung): Rung {
  return {
    material: a.material,
    mass: a.mass + b.mass,
    tires: a.tires + b.tires,
    price: a.price + b.price,
    tippingFee: a.tippingFee + b.tippingFee,
    byProducts: a.byProducts + b.byProducts,
    cost: a.cost + b.cost,
    net: a.net + b.net,
  };
}
