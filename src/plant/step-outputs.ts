import { readSieve } from '../quantity/sieve.js';
import type { Step } from '../scenario/schema/scenario.js';
import { type Assay, inOrder, type Output, sumOf } from './assay.js';
import { type Separation, separate } from './separation.js';
import { type Deck, screen, screenWithReturn } from './sizing.js';

type Yields = Step['yields'];
type Sizing = Extract<Yields, { readonly sizing: unknown }>['sizing'];

/** The word in place of a material where the over of the first deck goes back to the machine. */
export const RETURN = 'return';

/**
 * What a step makes of its input, each material once. A separation takes the assays apart; a sizing and a step
 * with a single output leave the input's assay as it is; several stated shares say nothing about it.
 *
 * @param input the input's assay, which a separation needs in full
 * @throws RangeError for a separation of an input without an assay, or a sieve that is not known
 */
export function stepOutputs(yields: Yields, input: Assay | undefined): Output[] {
  if ('shares' in yields) return sharesOutputs(yields.shares, input);
  if ('sizing' in yields) return merged(sizingOutputs(yields.sizing, input));
  if (input === undefined) throw new RangeError('A separation needs the assay of its input.');
  return merged(separate(input, yields.separation));
}

/** Passes of a step through its machine that come from a sizing with return; 1 without one. */
export function sizingPasses(yields: Yields): number {
  if (!('sizing' in yields) || !returnsFirst(yields.sizing)) return 1;
  return screenWithReturn(yields.sizing, decksOf(yields.sizing)).passes;
}

/** Whether the outputs of the step have the assay of its input. */
export function keepsAssay(yields: Yields): boolean {
  return 'sizing' in yields || ('shares' in yields && positive(yields.shares).length === 1);
}

/** The materials that a step makes, each once, whether or not the shares can be worked out. */
export function outputsNamed(yields: Yields): string[] {
  return [...productsNamed(yields), ...lossesNamed(yields)];
}

/** Those of them that are not only losses. */
export function productsNamed(yields: Yields): string[] {
  if ('shares' in yields) return positive(yields.shares).map(([material]) => material);
  if ('separation' in yields) return separationMaterials(yields.separation);
  const { decks, under } = yields.sizing;
  const overs = decks.flatMap(({ over }, i) => (i === 0 && over === RETURN ? [] : [over]));
  return [...new Set([...overs, under])];
}

/** Those of them that are losses and nothing else: the scenario does not say what is lost. */
export function lossesNamed(yields: Yields): string[] {
  if (!('sizing' in yields)) return [];
  const products = productsNamed(yields);
  return positive(yields.sizing.losses ?? {})
    .map(([material]) => material)
    .filter((material) => !products.includes(material));
}

function separationMaterials({ to, remainder }: Separation): string[] {
  return [...new Set([...Object.keys(to), remainder])];
}

function sharesOutputs(shares: Readonly<Record<string, number>>, input: Assay | undefined): Output[] {
  const assay = positive(shares).length === 1 ? withAssay(input) : {};
  return Object.entries(shares).map(([material, share]) => ({ material, share, ...assay }));
}

/** Losses come off the input first, evenly of all its constituents; the decks share what is left. */
function sizingOutputs(sizing: Sizing, input: Assay | undefined): Output[] {
  const { decks, under, losses = {} } = sizing;
  const left = 1 - sumOf(losses);
  const shares = returnsFirst(sizing)
    ? screenWithReturn(sizing, decksOf(sizing))
    : screen(sizing, decksOf(sizing));
  const overs = decks.map(({ over }, i) => ({ material: over, share: left * shares.over[i]! }));
  return [
    ...overs.slice(returnsFirst(sizing) ? 1 : 0),
    { material: under, share: left * shares.under },
    ...inOrder(losses).map(([material, share]) => ({ material, share })),
  ].map((output) => ({ ...output, ...withAssay(input) }));
}

function decksOf({ decks }: Sizing): Deck[] {
  return decks.map(({ opening, efficiency }) => ({
    opening: openingOf(opening),
    efficiency: efficiency ?? 1,
  }));
}

function openingOf(opening: number | string): number {
  const reading = readSieve(opening);
  if (reading.kind === 'unknown') throw new RangeError(`There is no sieve ${opening}.`);
  return reading.opening;
}

function returnsFirst({ decks }: Sizing): boolean {
  return decks[0]?.over === RETURN;
}

function positive(shares: Readonly<Record<string, number>>): [string, number][] {
  return Object.entries(shares).filter(([, share]) => share > 0);
}

function withAssay(assay: Assay | undefined): { readonly assay?: Assay } {
  return assay === undefined ? {} : { assay };
}

/** Outputs of the same material put together: shares add, assays are averaged by mass. */
function merged(outputs: readonly Output[]): Output[] {
  const materials = [...new Set(outputs.map(({ material }) => material))];
  return materials.map((material) => {
    const same = outputs.filter((output) => output.material === material);
    if (same.length === 1) return same[0]!;
    const share = same.reduce((sum, output) => sum + output.share, 0);
    return { material, share, ...withAssay(average(same.filter((output) => output.share > 0))) };
  });
}

function average(outputs: readonly Output[]): Assay | undefined {
  const total = outputs.reduce((sum, { share }) => sum + share, 0);
  const first = outputs[0]?.assay;
  if (first === undefined || outputs.some(({ assay }) => assay === undefined)) return undefined;
  return Object.fromEntries(
    Object.keys(first).map((constituent) => [
      constituent,
      outputs.reduce((sum, { share, assay }) => sum + share * (assay?.[constituent] ?? 0), 0) / total,
    ]),
  );
}
