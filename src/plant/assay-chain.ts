import type { Step } from '../scenario/schema/scenario.js';
import { type Assay, closes, type Output, sumOf } from './assay.js';
import { keepsAssay, lossesNamed, outputsNamed, productsNamed, stepOutputs } from './step-outputs.js';

/** A material as the chain sees it. */
export interface ChainMaterial {
  readonly id: string;
  /** Stated; it then stands, whatever the steps make of it. */
  readonly assay?: Assay;
}

export type ChainStep = Pick<Step, 'id' | 'input' | 'yields'>;

/** One material, one assay: down the chain from what is stated. */
export interface AssayChain {
  /** Stated, or else derived; without the materials of which nothing is known. */
  readonly assays: ReadonlyMap<string, Assay>;
  /** By step; without the steps whose outputs cannot be worked out. */
  readonly outputs: ReadonlyMap<string, readonly Output[]>;
  readonly findings: readonly ChainFinding[];
  /** Materials of which nothing is known for a reason that is found, or was given as unclear. */
  readonly unclear: ReadonlySet<string>;
}

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

interface Walk {
  readonly stated: ReadonlyMap<string, Assay | undefined>;
  readonly makers: ReadonlyMap<string, readonly ChainStep[]>;
  /** Resolved; undefined: nothing is known of it. */
  readonly known: Map<string, Assay | undefined>;
  readonly outputs: Map<string, readonly Output[]>;
  readonly findings: ChainFinding[];
  /** Materials of which nothing is known for a reason that has been found already. */
  readonly spoiled: Set<string>;
}

/**
 * Assays and outputs of all the steps, and what is wrong or worth a word about them.
 *
 * @param unclear materials of which nothing can be said, and of which nothing is to be found
 */
export function assayChain(
  materials: readonly ChainMaterial[],
  steps: readonly ChainStep[],
  unclear: readonly string[] = [],
): AssayChain {
  const walk: Walk = {
    stated: new Map(materials.map(({ id, assay }) => [id, assay])),
    makers: makersOf(steps),
    known: new Map(),
    outputs: new Map(),
    findings: [],
    spoiled: new Set(unclear),
  };
  const separated = steps.filter(({ yields }) => 'separation' in yields).map(({ input }) => input);
  for (const id of [...separated, ...walk.stated.keys()]) resolve(walk, id, []);
  for (const step of steps) outputsOf(walk, step, []);
  for (const id of walk.stated.keys()) compare(walk, id);
  const assays = [...walk.known].filter((entry): entry is [string, Assay] => entry[1] !== undefined);
  const findings = walk.findings.filter(
    (finding) => finding.kind !== 'circle' || matters(walk, finding.materials),
  );
  return { assays: new Map(assays), outputs: walk.outputs, findings, unclear: walk.spoiled };
}

/** A circle in which nothing is taken apart and into which no assay comes has no assay to derive. */
function matters({ makers, known }: Walk, circle: readonly string[]): boolean {
  return circle
    .flatMap((material) => makers.get(material) ?? [])
    .some(
      ({ input, yields }) =>
        'separation' in yields ||
        (keepsAssay(yields) && !circle.includes(input) && known.get(input) !== undefined),
    );
}

function spoil({ spoiled }: Walk, materials: readonly string[]): void {
  for (const material of materials) spoiled.add(material);
}

/** The material's assay, that of its makers' inputs first. `path`: the materials that wait for it. */
function resolve(walk: Walk, id: string, path: readonly string[]): Assay | undefined {
  const stated = walk.stated.get(id);
  if (stated !== undefined) walk.known.set(id, stated);
  if (walk.known.has(id)) return walk.known.get(id);
  const start = path.indexOf(id);
  if (start >= 0) {
    walk.findings.push({ kind: 'circle', materials: path.slice(start).toReversed() });
    for (const material of path.slice(start)) walk.known.set(material, undefined);
    spoil(walk, path.slice(start));
    return undefined;
  }
  const assay = madeOf(walk, id, [...path, id]);
  if (!walk.known.has(id)) walk.known.set(id, assay);
  return walk.known.get(id);
}

/** The assay of what the steps make; of a loss only where it is nothing else, and the losses agree. */
function madeOf(walk: Walk, id: string, path: readonly string[]): Assay | undefined {
  const [product] = madeAs(walk, id, productsNamed, path);
  if (product !== undefined || walk.known.has(id)) return product?.assay;
  const [loss, ...others] = madeAs(walk, id, lossesNamed, path);
  const agree = others.every(
    ({ assay }) => difference(worstOf(loss!.assay, assay), loss!.assay, assay) <= ASSAY_TOLERANCE,
  );
  return agree ? loss?.assay : undefined;
}

/** The assays with which the steps make a material, in the order of the steps. */
function madeAs(
  walk: Walk,
  id: string,
  named: (yields: Step['yields']) => string[],
  path: readonly string[],
): { step: string; assay: Assay }[] {
  const makers = (walk.makers.get(id) ?? []).filter(({ yields }) => named(yields).includes(id));
  return makers.flatMap((step) => {
    // Sizing a material into itself leaves its assay as it is, whatever it be.
    if (step.input === id && keepsAssay(step.yields)) return [];
    if ('shares' in step.yields && !keepsAssay(step.yields)) return [];
    const output = outputsOf(walk, step, path)?.find(({ material }) => material === id);
    return output?.assay === undefined ? [] : [{ step: step.id, assay: output.assay }];
  });
}

function outputsOf(walk: Walk, step: ChainStep, path: readonly string[]): readonly Output[] | undefined {
  if (walk.outputs.has(step.id)) return walk.outputs.get(step.id);
  const input = resolve(walk, step.input, path);
  if (input === undefined && walk.spoiled.has(step.input)) spoil(walk, outputsNamed(step.yields));
  if ('separation' in step.yields && !isWhole(walk, step, input)) {
    spoil(walk, outputsNamed(step.yields));
    return undefined;
  }
  const outputs = stepOutputs(step.yields, input);
  walk.outputs.set(step.id, outputs);
  return outputs;
}

function isWhole(walk: Walk, { id: step, input }: ChainStep, assay: Assay | undefined): boolean {
  if (assay !== undefined && closes(assay)) return true;
  const reported = walk.findings.some((finding) => 'step' in finding && finding.step === step);
  if (reported || (assay === undefined && walk.spoiled.has(input))) return false;
  walk.findings.push(
    assay === undefined
      ? { kind: 'no assay', step, input }
      : { kind: 'open assay', step, input, sum: sumOf(assay) },
  );
  return false;
}

/** Findings on one material: a stated assay against those with which it is made, or these against each other. */
function compare(walk: Walk, material: string): void {
  const made = madeAs(walk, material, productsNamed, []);
  const stated = walk.stated.get(material);
  const [first, ...others] = made;
  if (stated !== undefined) {
    for (const { step, assay } of made) compareStated(walk, material, stated, step, assay);
    return;
  }
  if (first === undefined) return;
  for (const other of others) compareMade(walk, material, first, other);
  for (const { id, yields } of walk.makers.get(material) ?? []) {
    const by = unsaid(yields, material);
    if (by !== undefined) walk.findings.push({ kind: 'assumed', material, step: id, by, from: first.step });
  }
}

/** Why a step does not say what the material is made of. */
function unsaid(yields: Step['yields'], material: string): 'shares' | 'loss' | undefined {
  if (lossesNamed(yields).includes(material)) return 'loss';
  return 'shares' in yields && !keepsAssay(yields) ? 'shares' : undefined;
}

function compareStated(walk: Walk, material: string, stated: Assay, step: string, assay: Assay): void {
  for (const constituent of shared(stated, assay)) {
    const made = { step, share: assay[constituent]! };
    if (Math.abs(stated[constituent]! - made.share) > ASSAY_TOLERANCE) {
      walk.findings.push({
        kind: 'stated differs',
        material,
        constituent,
        stated: stated[constituent]!,
        made,
      });
    }
  }
}

/** One finding for two steps: the constituent that differs most. */
function compareMade(
  walk: Walk,
  material: string,
  a: { step: string; assay: Assay },
  b: { step: string; assay: Assay },
): void {
  const worst = worstOf(a.assay, b.assay);
  if (difference(worst, a.assay, b.assay) <= ASSAY_TOLERANCE) return;
  const made = ({ step, assay }: typeof a): Made => ({ step, share: assay[worst] ?? 0 });
  walk.findings.push({ kind: 'differing', material, constituent: worst, steps: [made(a), made(b)] });
}

/** The constituent in which two assays differ most. */
function worstOf(a: Assay, b: Assay): string {
  const constituents = [...new Set([...Object.keys(a), ...Object.keys(b)])];
  return constituents.reduce((worst, next) =>
    difference(next, a, b) > difference(worst, a, b) ? next : worst,
  );
}

function difference(constituent: string, a: Assay, b: Assay): number {
  return Math.abs((a[constituent] ?? 0) - (b[constituent] ?? 0));
}

function makersOf(steps: readonly ChainStep[]): Map<string, ChainStep[]> {
  const makers = new Map<string, ChainStep[]>();
  for (const step of steps) {
    for (const material of outputsNamed(step.yields)) {
      makers.set(material, [...(makers.get(material) ?? []), step]);
    }
  }
  return makers;
}

function shared(a: Assay, b: Assay): string[] {
  return Object.keys(a).filter((constituent) => Object.hasOwn(b, constituent));
}
