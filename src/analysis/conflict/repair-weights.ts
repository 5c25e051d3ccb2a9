import type { Plant } from '../../plant/plant.js';
import type { RepairWeights } from './conflict.js';

/**
 * What a mass unit or an hour of each kind of limit weighs in a repair, where the scenario does not say: this
 * planner's own convention, no standard. What can be talked over with a buyer gives first, what belongs to the
 * plant then, what is a permit or somebody else's safety last.
 */
export const DEFAULT_REPAIR_WEIGHTS: RepairWeights = {
  contractMinimum: 1,
  contractCall: 1,
  termMinimum: 1,
  closingStock: 1,
  stockMinimum: 2,
  contractMaximum: 3,
  termMaximum: 3,
  feedCommitted: 3,
  quality: 5,
  outletTier: 8,
  feedAvailable: 8,
  crewHours: 10,
  machineHours: 10,
  stockCapacity: 300,
  disposalLimit: 1000,
  store: 1000,
};

/** The scenario's weights over the defaults. */
export function repairWeights(plant: Plant): RepairWeights {
  return { ...DEFAULT_REPAIR_WEIGHTS, ...plant.repairWeights };
}
