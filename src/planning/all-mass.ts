import type { Plant } from '../plant/plant.js';

/** All that can come in over the horizon, and what lies there at the start: no step makes mass. */
export function allMass(plant: Plant): number {
  const received = plant.feeds.map((feed) =>
    plant.months.reduce((sum, { index }) => sum + feed.committed[index] + feed.others[index], 0),
  );
  const opening = plant.materials.map((material) => material.stock?.opening ?? 0);
  return [...received, ...opening].reduce((sum, mass) => sum + mass, 0);
}
