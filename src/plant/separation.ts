import { type Assay, inOrder, type Output } from './assay.js';

/** What a separator does with each constituent of its input. */
export interface Separation {
  /** R[k,c]: by output material k, the share of constituent c of the input that goes there. */
  readonly to: Readonly<Record<string, Readonly<Record<string, number>>>>;
  /** The material that takes the rest. */
  readonly remainder: string;
}

/**
 * Outputs of a separation. With a[c] the input's assay, adding up to 1:
 * share of k = Σ_c a[c]·R[k,c]; assay of k = a[c]·R[k,c] / share of k;
 * the remainder takes Σ_c a[c]·(1 − Σ_k R[k,c]).
 * An output without mass has no assay.
 */
export function separate(input: Assay, { to, remainder }: Separation): Output[] {
  const outputs = inOrder(to).map(([material, recoveries]) =>
    outputOf(material, input, (constituent) => recoveries[constituent] ?? 0),
  );
  const rest = (constituent: string) =>
    inOrder(to).reduce((left, [, recoveries]) => left - (recoveries[constituent] ?? 0), 1);
  return [...outputs, outputOf(remainder, input, (constituent) => Math.max(0, rest(constituent)))];
}

/**
 * The two-product formula: the share of the input that leaves in the first of two products, from one
 * constituent's assay of input f, first product c and second product t: (f − t) / (c − t).
 * Source: Wills' Mineral Processing Technology, chapter on metallurgical accounting (from memory).
 */
export function twoProductShare(input: number, first: number, second: number): number {
  return (input - second) / (first - second);
}

/** Recovery of the constituent to the first product: c·(f − t) / (f·(c − t)). Source as above. */
export function twoProductRecovery(input: number, first: number, second: number): number {
  return (first / input) * twoProductShare(input, first, second);
}

function outputOf(material: string, input: Assay, recovery: (constituent: string) => number): Output {
  const masses = inOrder(input).map(([constituent, share]): [string, number] => [
    constituent,
    share * recovery(constituent),
  ]);
  const share = masses.reduce((sum, [, mass]) => sum + mass, 0);
  if (share === 0) return { material, share };
  return {
    material,
    share,
    assay: Object.fromEntries(masses.map(([constituent, mass]) => [constituent, mass / share])),
  };
}
