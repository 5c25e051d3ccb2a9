import { PLANT_CHECKS } from '../../plant/plant-checks.js';
import { checkDocument } from '../../scenario/parse.js';
import { parsePointer } from '../../scenario/pointer.js';
import type { Uncertainty } from '../../scenario/schema/scenario.js';
import { goOn } from '../unfinished.js';
import type { DrawFactors } from './draw-factors.js';
import { withFactors } from './uncertain-numbers.js';

/** Halvings that find the last valid factor on a side. */
const HALVINGS = 6;

/** Factors of one draw: [target][month, or one for the whole series]. */
type Factors = readonly (readonly number[])[];

/**
 * For each target a range of factors, among those drawn, inside which a draw is taken for valid. Targets that
 * move as one are moved as one: to both ends of what was drawn, or as far as the scenario passes its checks.
 * It must pass them too with all at their lower ends, all at their upper ends, and with each two that touch the
 * same thing (an outlet, a contract) at opposite ends, since a rule of the format compares numbers of one thing
 * at most. Where it does not, no draw is taken for valid and each is checked by itself.
 *
 * @throws Unfinished
 */
export function validFactors(
  base: unknown,
  targets: readonly Uncertainty[],
  factors: DrawFactors,
  centre: Factors,
  cancelled?: () => boolean,
): [number, number][] {
  const isValid = (moved: Factors) => {
    goOn(cancelled);
    return checkDocument(withFactors(base, targets, moved), PLANT_CHECKS).ok;
  };
  const blocks = blocksOf(targets);
  const drawn = targets.map((_, k): [number, number] => {
    const all = factors.flatMap((draw) => draw[k]);
    return [Math.min(...all, ...centre[k]), Math.max(...all, ...centre[k])];
  });
  const ranges = targets.map((_, k): [number, number] => [centre[k][0], centre[k][0]]);
  const at = (ends: ReadonlyMap<number, 0 | 1>) =>
    centre.map((row, k) => row.map((own) => (ends.has(k) ? ranges[k][ends.get(k) as 0 | 1] : own)));
  for (const block of blocks) {
    for (const side of [0, 1] as const) {
      const reach = lastValid((share) =>
        isValid(
          centre.map((row, k) =>
            block.includes(k) ? row.map((own) => own + share * (drawn[k][side] - own)) : row,
          ),
        ),
      );
      for (const k of block) ranges[k][side] = centre[k][0] + reach * (drawn[k][side] - centre[k][0]);
    }
  }
  const together = (side: 0 | 1) => at(new Map(targets.map((_, k) => [k, side])));
  const opposite = touching(blocks, targets).flatMap(([a, b]) =>
    ([0, 1] as const).map((side) =>
      at(new Map([...a.map((k) => [k, side] as const), ...b.map((k) => [k, (1 - side) as 0 | 1] as const)])),
    ),
  );
  const isSafe = [together(0), together(1), ...opposite].every(isValid);
  return isSafe ? ranges : targets.map((_, k) => [centre[k][0], centre[k][0]]);
}

/** Targets that share all of a group's draw and its distribution move as one. */
function blocksOf(targets: readonly Uncertainty[]): number[][] {
  const blocks = new Map<string, number[]>();
  targets.forEach(({ group, correlation = 1, distribution, eachMonth }, k) => {
    const isTied = group !== undefined && correlation === 1;
    const key = isTied ? JSON.stringify([group, distribution, eachMonth === true]) : String(k);
    blocks.set(key, [...(blocks.get(key) ?? []), k]);
  });
  return [...blocks.values()];
}

/** Pairs of blocks with targets in one entry of the same list. */
function touching(blocks: readonly number[][], targets: readonly Uncertainty[]): [number[], number[]][] {
  const thingOf = (k: number) => (parsePointer(targets[k].target) ?? []).slice(0, 2).join('/');
  const things = blocks.map((block) => new Set(block.map(thingOf)));
  return blocks.flatMap((block, i) =>
    blocks.slice(i + 1).flatMap((other, j): [number[], number[]][] => {
      const isShared = [...things[i]].some((thing) => things[i + 1 + j].has(thing));
      return isShared ? [[block, other]] : [];
    }),
  );
}

/** The greatest share of the way, of those tried, at which all is valid. */
function lastValid(isValid: (share: number) => boolean): number {
  if (isValid(1)) return 1;
  let [good, bad] = [0, 1];
  for (let i = 0; i < HALVINGS; i++) {
    const between = (good + bad) / 2;
    if (isValid(between)) good = between;
    else bad = between;
  }
  return good;
}
