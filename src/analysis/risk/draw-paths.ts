import type { DrawFactors } from './draw-factors.js';

/** Draws in a batch: the answer of a stopped analysis is made of whole batches, which are samples like any. */
export const BATCH = 500;

/** Draws on a path: what one worker does in one go. Each path costs one solve from afar. */
const PATH = 125;

/**
 * Cuts the draws into batches in their order, and each batch into paths that go from one draw to another near it,
 * each factor measured by its own spread. A path starts from the base basis and goes on from the basis of the draw
 * before: few pivots lie between draws that are alike. It depends on the draws alone, not on who walks it.
 *
 * @param weights by target: what following its factor costs, against the others
 */
export function drawPaths(factors: DrawFactors, weights: readonly number[]): number[][] {
  const places = weighed(factors, weights);
  const paths: number[][] = [];
  for (let first = 0; first < places.length; first += BATCH) {
    const distances = new Distances(places.slice(first, first + BATCH));
    const way = shortened(nearestNeighbours(distances), distances);
    for (let i = 0; i < way.length; i += PATH)
      paths.push(way.slice(i, i + PATH).map((place) => first + place));
  }
  return paths;
}

/** Each coordinate in standard deviations over the draws, times its weight; one that does not move counts as it is. */
function weighed(factors: DrawFactors, weights: readonly number[]): Float64Array[] {
  const places = factors.map((draw) => Float64Array.from(draw.flat()));
  const weightOf = (factors[0] ?? []).flatMap((own, k) => own.map(() => weights[k]));
  const scales = weightOf.map((weight, c) => {
    const mean = places.reduce((sum, place) => sum + place[c], 0) / places.length;
    const variance = places.reduce((sum, place) => sum + (place[c] - mean) ** 2, 0) / places.length;
    return weight / (Math.sqrt(variance) || 1);
  });
  return places.map((place) => place.map((factor, c) => factor * scales[c]));
}

/** Euclidean distances between each two of some places. */
class Distances {
  readonly count: number;
  private readonly matrix: Float64Array;

  constructor(places: readonly Float64Array[]) {
    this.count = places.length;
    this.matrix = new Float64Array(this.count ** 2);
    for (const [a, here] of places.entries()) {
      for (let b = 0; b < a; b++) {
        let squares = 0;
        for (let k = 0; k < here.length; k++) squares += (places[b][k] - here[k]) ** 2;
        this.matrix[a * this.count + b] = this.matrix[b * this.count + a] = Math.sqrt(squares);
      }
    }
  }

  between(a: number, b: number): number {
    return this.matrix[a * this.count + b];
  }
}

/** From the first place on, always to the nearest one not yet visited. */
function nearestNeighbours(distances: Distances): number[] {
  const left = new Set(Array.from({ length: distances.count }, (_, i) => i));
  const way: number[] = [];
  for (let here = 0; left.size > 0; ) {
    left.delete(here);
    way.push(here);
    let [nearest, least] = [here, Number.POSITIVE_INFINITY];
    for (const there of left) {
      const distance = distances.between(here, there);
      if (distance < least) [nearest, least] = [there, distance];
    }
    here = nearest;
  }
  return way;
}

/** What a way must become shorter by to be changed: more than rounding. */
const SHORTER = 1e-9;

/**
 * The way with stretches of it reversed as long as that makes it shorter (2-opt): always to the nearest one leaves
 * long jumps between the last ones.
 */
function shortened(way: readonly number[], distances: Distances): number[] {
  const result = [...way];
  const between = (i: number, j: number) =>
    i < 0 || j === result.length ? 0 : distances.between(result[i], result[j]);
  for (let isChanged = true; isChanged; ) {
    isChanged = false;
    for (let i = 0; i < result.length - 1; i++) {
      for (let j = i + 1; j < result.length; j++) {
        const now = between(i - 1, i) + between(j, j + 1);
        const then = between(i - 1, j) + between(i, j + 1);
        if (now - then <= SHORTER) continue;
        reverse(result, i, j);
        isChanged = true;
      }
    }
  }
  return result;
}

function reverse(way: number[], from: number, to: number): void {
  for (let i = from, j = to; i < j; i++, j--) [way[i], way[j]] = [way[j], way[i]];
}
