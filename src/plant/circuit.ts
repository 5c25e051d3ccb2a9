/** A machine that works against a screen and takes the oversize back, in the steady state. */
export interface Circuit {
  /** Share of one pass that is under the opening, above 0 and up to 1. */
  readonly undersize: number;
  /** Share of that which the screen lets through, above 0 and up to 1. */
  readonly screenEfficiency: number;
}

/**
 * Passes through the machine for each tonne of fresh input: 1 / (undersize · screenEfficiency).
 * In the steady state the product equals the fresh input, and each pass yields undersize · screenEfficiency.
 * Net throughput is then that of one pass divided by the passes, energy and wear are multiplied by them.
 */
export function passesOf({ undersize, screenEfficiency }: Circuit): number {
  return 1 / (undersize * screenEfficiency);
}

/** Mass that goes back for each mass of fresh input: passes − 1. */
export function circulatingLoad(circuit: Circuit): number {
  return passesOf(circuit) - 1;
}
