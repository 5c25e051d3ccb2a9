import type { Step } from '../scenario/schema/scenario.js';
import type { Assay } from './assay.js';
import { keepsAssay, lossesNamed } from './step-outputs.js';

export type ChainFinding =
  /** Each of the materials is made from the one before, the first from the last. */
  | { readonly kind: 'circle'; readonly materials: readonly string[] }
  /** Two steps make one material with different assays. */
  | {
      readonly kind: 'differing';
      readonly material: string;
      readonly constituent: string;
      readonly steps: readonly [Made, Made];
    }
  /** The input of a separation has no assay. */
  | { readonly kind: 'no assay'; readonly step: string; readonly input: string }
  /** The assay of a separation's input does not add up to 1. */
  | { readonly kind: 'open assay'; readonly step: string; readonly input: string; readonly sum: number }
  /** The stated assay of a material is not that with which a step makes it. */
  | {
      readonly kind: 'stated differs';
      readonly material: string;
      readonly constituent: string;
      readonly stated: number;
      readonly made: Made;
    }
  /** A step makes the material by stated shares or as a loss; its assay is taken to be that of another step. */
  | {
      readonly kind: 'assumed';
      readonly material: string;
      readonly step: string;
      readonly by: 'shares' | 'loss';
      readonly from: string;
    };

export interface Made {
  readonly step: string;
  readonly share: number;
}

/** Largest difference between two assays of one material that passes for rounding. */
export const ASSAY_TOLERANCE = 0.001;

/** The assay with which a step makes a material. */
export interface MadeAssay {
  readonly step: string;
  readonly assay: Assay;
}

/**
 * Findings on one material: its stated assay against those with which it is made, constituents that both
 * have, or these against each other.
 *
 * @param makers all the steps that make it
 */
export function assayFindings(
  material: string,
  stated: Assay | undefined,
  made: readonly MadeAssay[],
  makers: readonly Pick<Step, 'id' | 'yields'>[],
): ChainFinding[] {
  if (stated !== undefined) return made.flatMap((one) => statedFindings(material, stated, one));
  const [first, ...others] = made;
  if (first === undefined) return [];
  return [
    ...others.flatMap((other) => differingFinding(material, first, other)),
    ...makers.flatMap(({ id, yields }): ChainFinding[] => {
      const by = unsaid(yields, material);
      return by === undefined ? [] : [{ kind: 'assumed', material, step: id, by, from: first.step }];
    }),
  ];
}

/** Whether two assays of one material differ by no more than passes for rounding. */
export function agree(a: Assay, b: Assay): boolean {
  return constituentsOf(a, b).every((constituent) => difference(constituent, a, b) <= ASSAY_TOLERANCE);
}

function statedFindings(material: string, stated: Assay, { step, assay }: MadeAssay): ChainFinding[] {
  return Object.keys(stated)
    .filter((constituent) => Object.hasOwn(assay, constituent))
    .filter((constituent) => difference(constituent, stated, assay) > ASSAY_TOLERANCE)
    .map((constituent) => ({
      kind: 'stated differs',
      material,
      constituent,
      stated: stated[constituent]!,
      made: { step, share: assay[constituent]! },
    }));
}

/** One finding for two steps: the constituent that differs most. */
function differingFinding(material: string, a: MadeAssay, b: MadeAssay): ChainFinding[] {
  if (agree(a.assay, b.assay)) return [];
  const worst = constituentsOf(a.assay, b.assay).reduce((most, next) =>
    difference(next, a.assay, b.assay) > difference(most, a.assay, b.assay) ? next : most,
  );
  const made = ({ step, assay }: MadeAssay): Made => ({ step, share: assay[worst] ?? 0 });
  return [{ kind: 'differing', material, constituent: worst, steps: [made(a), made(b)] }];
}

/** Why a step does not say what the material is made of. */
function unsaid(yields: Step['yields'], material: string): 'shares' | 'loss' | undefined {
  if (lossesNamed(yields).includes(material)) return 'loss';
  return 'shares' in yields && !keepsAssay(yields) ? 'shares' : undefined;
}

function constituentsOf(a: Assay, b: Assay): string[] {
  return [...new Set([...Object.keys(a), ...Object.keys(b)])];
}

function difference(constituent: string, a: Assay, b: Assay): number {
  return Math.abs((a[constituent] ?? 0) - (b[constituent] ?? 0));
}
