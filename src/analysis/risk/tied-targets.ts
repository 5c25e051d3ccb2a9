import type { Uncertainty } from '../../scenario/schema/scenario.js';

/**
 * Positions of the targets, those together that move by one factor in every draw: they share all of a group's draw,
 * and a distribution.
 */
export function tiedTargets(targets: readonly Uncertainty[]): number[][] {
  const blocks = new Map<string, number[]>();
  targets.forEach(({ group, correlation = 1, distribution, eachMonth }, k) => {
    const isTied = group !== undefined && correlation === 1;
    const key = isTied ? JSON.stringify([group, distribution, eachMonth === true]) : String(k);
    blocks.set(key, [...(blocks.get(key) ?? []), k]);
  });
  return [...blocks.values()];
}
