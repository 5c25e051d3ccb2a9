import type { Plant, PlantStep } from './plant.js';

/** Where one constituent of a step's input goes, in mass by mass of input. */
export interface ConstituentBalance {
  readonly constituent: string;
  readonly input: number;
  readonly outputs: readonly {
    readonly material: string;
    readonly mass: number;
    readonly recovery: number;
  }[];
  /** input − Σ outputs */
  readonly difference: number;
}

/**
 * The mass balance of a step by constituent, from the input's assay to the outputs as the step makes them:
 * mass of c in output k = share of k · assay of k at c. Empty where the step does not say what its outputs are
 * made of.
 */
export function stepBalance(plant: Plant, step: PlantStep): ConstituentBalance[] {
  const input = plant.materials.find(({ id }) => id === step.input)?.assay ?? {};
  const outputs = step.yields.filter(({ share }) => share > 0);
  if (outputs.some(({ assay }) => assay === undefined)) return [];
  return Object.keys(input).map((constituent) => {
    const mass = input[constituent]!;
    const parts = outputs.map(({ material, share, assay }) => {
      const part = share * (assay?.[constituent] ?? 0);
      return { material, mass: part, recovery: mass === 0 ? 0 : part / mass };
    });
    return {
      constituent,
      input: mass,
      outputs: parts,
      difference: parts.reduce((left, part) => left - part.mass, mass),
    };
  });
}

/** Input mass less the mass of all outputs, by mass of input. */
export function massDifference({ yields }: PlantStep): number {
  return yields.reduce((left, { share }) => left - share, 1);
}
