import { readSieve } from '../../quantity/sieve.js';
import { STARTER_FIGURES } from '../../quantity/starter-figures.js';
import type { Draft } from '../../scenario/draft.js';
import { materialFigures, starterReferences } from '../../scenario/material-figures.js';
import type { Material, Step } from '../../scenario/schema/scenario.js';
import { type AssayChain, assayChain, type ChainMaterial } from '../assay-chain.js';

/** The chain of assays of a draft. Where something is misshapen, nothing is found of what hangs on it. */
export function draftChain(draft: Draft): AssayChain {
  const steps = draft.steps.map(({ value }) => value).filter(hasKnownSieves);
  const materials = draft.fragments.materials.flatMap(({ value, unclear }): ChainMaterial[] => {
    if (value.id === undefined) return [];
    return unclear.has('assay') || !hasKnownAssay(value)
      ? [{ id: value.id }]
      : [{ id: value.id, ...assayOf(value) }];
  });
  const clear = new Set(
    draft.fragments.materials
      .filter(({ value, unclear }) => !unclear.has('assay') && hasKnownAssay(value))
      .map(({ value }) => value.id),
  );
  const someStepIsUnclear = steps.length < draft.fragments.steps.length;
  const named = [...materials.map(({ id }) => id), ...steps.map(({ input }) => input)];
  return assayChain(
    materials,
    steps,
    named.filter((id) => someStepIsUnclear || !clear.has(id)),
  );
}

/** Whether the step's decks, if any, are sieves of the table. */
export function hasKnownSieves({ yields }: Step): boolean {
  if (!('sizing' in yields)) return true;
  return yields.sizing.decks.every(({ opening }) => readSieve(opening).kind === 'opening');
}

function hasKnownAssay(material: Partial<Material>): boolean {
  return starterReferences(material).every(
    ({ field, id }) => field !== 'assay' || STARTER_FIGURES.assay.some((figure) => figure.id === id),
  );
}

function assayOf(material: Partial<Material>): Pick<ChainMaterial, 'assay'> {
  const { assay } = materialFigures(material.assay === undefined ? {} : { assay: material.assay });
  return assay === undefined ? {} : { assay };
}
