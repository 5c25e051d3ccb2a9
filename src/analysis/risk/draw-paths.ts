import type { DrawFactors } from './draw-factors.js';

/** Draws in a batch: the answer of a stopped analysis is made of whole batches, which are samples like any. */
export const BATCH = 500;

/** Draws on a path: what one worker does in one go. Each path costs one solve from afar. */
const PATH = 125;

/**
 * Cuts the draws into batches in their order, and each batch into paths that go from one draw to the nearest one
 * not yet visited, each factor measured by its own spread. A path starts from the base basis and goes on from the basis of the draw before:
 * few pivots lie between draws that are alike. It depends on the draws alone, not on who walks it.
 */
export function drawPaths(factors: DrawFactors): number[][] {
  const places = standardized(factors.map((draw) => Float64Array.from(draw.flat())));
  const paths: number[][] = [];
  for (let first = 0; first < places.length; first += BATCH) {
    const count = Math.min(BATCH, places.length - first);
    const order = walk(places, first, count);
    for (let i = 0; i < order.length; i += PATH) paths.push(order.slice(i, i + PATH));
  }
  return paths;
}

/** Each coordinate divided by its standard deviation over the draws; one that does not move counts as it is. */
function standardized(places: readonly Float64Array[]): Float64Array[] {
  const count = places.length;
  const spreads = Float64Array.from(places[0] ?? [], (_, k) => {
    const mean = places.reduce((sum, place) => sum + place[k], 0) / count;
    return Math.sqrt(places.reduce((sum, place) => sum + (place[k] - mean) ** 2, 0) / count) || 1;
  });
  return places.map((place) => place.map((factor, k) => factor / spreads[k]));
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
