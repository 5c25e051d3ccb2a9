import { daysInForce } from '../calendar/days-in-force.js';
import type { Outlet } from '../scenario/schema/scenario.js';
import { byMonth, type Derivation, ratesByMonth, sortedById } from './derivation.js';
import type { ByMonth, PlantOutlet } from './plant.js';

export function deriveOutlets(derivation: Derivation): PlantOutlet[] {
  return sortedById(derivation.scenario.outlets).map((outlet) => {
    const { id, material, from, to } = outlet;
    const inForce = shareInForce(derivation, from, to);
    return {
      id,
      name: outlet.name ?? id,
      material,
      inForce,
      tiers: tiersOf(derivation, outlet, inForce),
      freight: ratesByMonth(derivation, material, outlet.freight),
      packing: ratesByMonth(derivation, material, outlet.packing),
      paymentDays: outlet.paymentDays ?? 0,
    };
  });
}

/** By month, the share of its days from `from` to `to`, both included. */
export function shareInForce({ months }: Derivation, from?: string, to?: string): number[] {
  return daysInForce(months, from, to).map((days, t) => days / months[t]!.days);
}

/** Figures of whole months, each in proportion to its days in force; 0 where not in force, also of Infinity. */
export function inProportion(figures: ByMonth, inForce: ByMonth): number[] {
  return figures.map((figure, t) => (inForce[t] === 0 ? 0 : figure * inForce[t]!));
}

/** Width of tier i = upTo_i − upTo_{i−1}, of the part of the month in force; a price with a limit is one tier. */
function tiersOf(derivation: Derivation, outlet: Outlet, inForce: ByMonth): PlantOutlet['tiers'] {
  const tiers = outlet.tiers ?? [{ upTo: outlet.limit, price: outlet.price }];
  const bounds = tiers.map(({ upTo }) => byMonth(derivation, upTo, Number.POSITIVE_INFINITY));
  return tiers.map(({ price }, i) => ({
    width: inProportion(
      bounds[i]!.map((upTo, t) => upTo - (bounds[i - 1]?.[t] ?? 0)),
      inForce,
    ),
    price: ratesByMonth(derivation, outlet.material, price),
  }));
}
