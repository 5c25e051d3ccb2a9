import type { Step } from '../scenario/schema/scenario.js';
import { passesOf } from './circuit.js';
import { byMonth, type Derivation, ratesByMonth, sortedById } from './derivation.js';
import type { PlantStep } from './plant.js';
import { sizingPasses } from './step-outputs.js';

/** Steps with throughput, energy and wear of all passes, and the outputs that the chain of assays found. */
export function deriveSteps(derivation: Derivation): PlantStep[] {
  return sortedById(derivation.scenario.steps).map((step) => {
    const passes = passesThrough(step);
    const perPass = step.circuit?.passThroughput ?? step.throughput;
    const outputs = derivation.chain.outputs.get(step.id);
    if (outputs === undefined) throw new RangeError(`The outputs of step ${step.id} cannot be derived.`);
    const byId = sortedById(outputs.map((output) => ({ id: output.material, ...output })));
    return {
      id: step.id,
      name: step.name ?? step.id,
      machine: step.machine,
      input: step.input,
      throughput: byMonth(derivation, perPass, 0).map((mass) => mass / passes),
      energy: byMonth(derivation, step.energy, 0).map((energy) => energy * passes),
      wear: ratesByMonth(derivation, step.input, step.wear).map((wear) => wear * passes),
      passes,
      yields: byId.map(({ material, share, assay }) => ({
        material,
        share,
        ...(assay === undefined ? {} : { assay }),
      })),
    };
  });
}

/** Passes through the machine for each tonne of input: of a circuit, or of a sizing with return; else 1. */
export function passesThrough({ circuit, yields }: Pick<Step, 'circuit' | 'yields'>): number {
  if (circuit === undefined) return sizingPasses(yields);
  const { undersize, screenEfficiency = 1 } = circuit;
  return passesOf({ undersize, screenEfficiency });
}
