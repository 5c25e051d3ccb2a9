import type { DrawFactors } from './draw-factors.js';

/** Draws in a batch: the answer of a stopped analysis is made of whole batches, which are samples like any. */
export const BATCH = 500;

/** Draws on a path: what one worker does in one go. Each path costs one solve from afar. */
const PATH = 125;

/**
 * Cuts the draws into batches in their order, and each batch into paths that go from one draw to the nearest one
 * not yet visited, in factors. A path starts from the base basis and goes on from the basis of the draw before:
 * few pivots lie between draws that are alike. It depends on the draws alone, not on who walks it.
 */
export function drawPaths(factors: DrawFactors): number[][] {
  const places = factors.map((draw) => Float64Array.from(draw.flat()));
  const paths: number[][] = [];
  for (let first = 0; first < places.length; first += BATCH) {
    const count = Math.min(BATCH, places.length - first);
    const order = walk(places, first, count);
    for (let i = 0; i < order.length; i += PATH) paths.push(order.slice(i, i + PATH));
  }
  return paths;
}

function walk(places: readonly Float64Array[], first: number, count: number): number[] {
  const left = new Set(Array.from({ length: count }, (_, i) => first + i));
  const order: number[] = [];
  let here = first;
  while (left.size > 0) {
    left.delete(here);
    order.push(here);
    here = nearest(places, here, left);
  }
  return order;
}

function nearest(places: readonly Float64Array[], here: number, left: ReadonlySet<number>): number {
  let best = here;
  let least = Number.POSITIVE_INFINITY;
  for (const there of left) {
    let distance = 0;
    for (let k = 0; k < places[here].length && distance < least; k++) {
      distance += (places[there][k] - places[here][k]) ** 2;
    }
    if (distance < least) {
      least = distance;
      best = there;
    }
  }
  return best;
}
