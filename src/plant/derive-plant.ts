import { starterUses } from '../scenario/material-figures.js';
import type { Scenario } from '../scenario/schema/scenario.js';
import { byMonth, derivationOf, sortedById } from './derivation.js';
import { deriveContracts } from './derive-contracts.js';
import { deriveDisposals } from './derive-disposals.js';
import { deriveFeeds } from './derive-feeds.js';
import { deriveCrews, deriveMachines } from './derive-machines.js';
import { deriveMaterials } from './derive-materials.js';
import { deriveOutlets } from './derive-outlets.js';
import { deriveSteps } from './derive-steps.js';
import { deriveDemand, deriveWindows } from './derive-windows.js';
import type { Plant } from './plant.js';

/**
 * The plant of a scenario that has passed its checks: lists in the order of ids, series spread over the
 * months, rates in currency per mass unit, hours, yields and contract months derived.
 *
 * @throws RangeError where the scenario is one that the checks refuse.
 */
export function derivePlant(scenario: Scenario): Plant {
  const derivation = derivationOf(scenario);
  const windows = deriveWindows(derivation);
  const demand = deriveDemand(derivation);
  const materials = deriveMaterials(derivation);
  return {
    title: scenario.title,
    units: scenario.units,
    months: derivation.months,
    discountRate: scenario.discountRate ?? 0,
    windows,
    ...(demand === undefined ? {} : { demand }),
    materials,
    stores: sortedById(scenario.stores).map(({ id, name, materials, capacity }) => ({
      id,
      name: name ?? id,
      materials: [...materials].sort(),
      capacity,
    })),
    feeds: deriveFeeds(derivation),
    crews: deriveCrews(derivation),
    machines: deriveMachines(derivation, windows),
    steps: deriveSteps(derivation),
    outlets: deriveOutlets(derivation),
    contracts: deriveContracts(derivation, materials),
    disposals: deriveDisposals(derivation),
    fixedCosts: (scenario.fixedCosts ?? [])
      .map(({ name, perMonth }) => ({ name, perMonth: byMonth(derivation, perMonth, 0) }))
      .sort(byNameAndAmounts),
    ...(scenario.repair === undefined ? {} : { repairWeights: scenario.repair.weights }),
    starterFigures: sortedById(scenario.materials).flatMap(starterUses),
  };
}

/** Fixed costs have no ids and may share a name: their order must not hang on the document's. */
function byNameAndAmounts(a: Plant['fixedCosts'][number], b: Plant['fixedCosts'][number]): number {
  if (a.name !== b.name) return a.name < b.name ? -1 : 1;
  const month = a.perMonth.findIndex((amount, t) => amount !== b.perMonth[t]);
  return month < 0 ? 0 : a.perMonth[month] - b.perMonth[month];
}
