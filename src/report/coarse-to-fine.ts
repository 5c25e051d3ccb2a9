import type { Ladder, Rung } from '../planning/plan.js';
import type { Form, Plant } from '../plant/plant.js';

/** How far down the ladder a form stands. */
const DEPTH: Readonly<Record<Form, number>> = {
  whole: 0,
  shred: 1,
  chip: 2,
  'wire-free': 3,
  granulate: 4,
  powder: 5,
  steel: 6,
  fiber: 7,
  residue: 8,
  other: 9,
};

/** The ladder with its rungs from coarse to fine, those of one form in the order of their ids. */
export function coarseToFine(plant: Plant, ladder: Ladder): Ladder {
  const depth = new Map(plant.materials.map(({ id, form }) => [id, DEPTH[form]]));
  const sorted = (rungs: readonly Rung[]) =>
    [...rungs].sort((a, b) => (depth.get(a.material) ?? 0) - (depth.get(b.material) ?? 0));
  return { ...ladder, total: sorted(ladder.total), months: ladder.months.map(sorted) };
}
