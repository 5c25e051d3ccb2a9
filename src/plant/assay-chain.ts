import type { Step } from '../scenario/schema/scenario.js';
import { type Assay, closes, type Output, sumOf } from './assay.js';
import { agree, assayFindings, type ChainFinding, type MadeAssay } from './assay-findings.js';
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
  return others.every(({ assay }) => agree(loss!.assay, assay)) ? loss?.assay : undefined;
}

/** The assays with which the steps make a material, in the order of the steps. */
function madeAs(
  walk: Walk,
  id: string,
  named: (yields: Step['yields']) => string[],
  path: readonly string[],
): MadeAssay[] {
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

function compare(walk: Walk, material: string): void {
  const made = madeAs(walk, material, productsNamed, []);
  const makers = walk.makers.get(material) ?? [];
  walk.findings.push(...assayFindings(material, walk.stated.get(material), made, makers));
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
