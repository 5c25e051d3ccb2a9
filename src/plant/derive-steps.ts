import type { Step } from '../scenario/schema/scenario.js';
import { netThroughput, passesOf } from './circuit.js';
import { byMonth, type Derivation, ratesByMonth, sortedById } from './derivation.js';
import type { PlantStep } from './plant.js';

export function deriveSteps(derivation: Derivation): PlantStep[] {
  return sortedById(derivation.scenario.steps).map((step) => {
    const circuit = circuitOf(step);
    const passes = passesOf(circuit);
    return {
      id: step.id,
      name: step.name ?? step.id,
      machine: step.machine,
      input: step.input,
      throughput: byMonth(derivation, step.circuit?.passThroughput ?? step.throughput, 0).map((through) =>
        netThroughput(through, circuit),
      ),
      energy: byMonth(derivation, step.energy, 0).map((energy) => energy * passes),
      wear: ratesByMonth(derivation, step.input, step.wear).map((wear) => wear * passes),
      passes,
      yields: yieldsOf(step),
    };
  });
}

function circuitOf({ circuit }: Step) {
  return { undersize: circuit?.undersize ?? 1, screenEfficiency: circuit?.screenEfficiency ?? 1 };
}

function yieldsOf(step: Step): PlantStep['yields'] {
  if (!('shares' in step.yields)) throw new RangeError(`Step ${step.id} does not state its shares.`);
  const shares = Object.entries(step.yields.shares).map(([id, share]) => ({ id, share }));
  return sortedById(shares).map(({ id, share }) => ({ material: id, share }));
}
