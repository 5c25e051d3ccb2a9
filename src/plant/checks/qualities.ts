import type { Problem } from '../../issue/problem.js';
import type { Draft } from '../../scenario/draft.js';
import { problemAt } from '../../scenario/place.js';
import type { Contract } from '../../scenario/schema/scenario.js';
import type { AssayChain } from '../assay-chain.js';
import { draftChain } from './draft-chain.js';

/** Every material of a contract states or derives the measures that the contract limits. */
export function checkQualities(draft: Draft): Problem[] {
  const chain = draftChain(draft);
  return [...draft.contracts, ...draft.offers].flatMap(({ value, pointer }) =>
    (value.quality ?? []).flatMap(({ measure }, i) =>
      value.materials
        // What is unclear is told elsewhere.
        .filter((id) => draft.declared.materials.has(id) && !isUnclear(chain, id, measure))
        .filter((id) => !isKnown(draft, chain, id, measure))
        .map((id) =>
          problemAt(
            draft.document,
            `${pointer}/quality/${i}/measure`,
            'contract',
            `material '${id}' neither states nor derives ${measure}`,
            remedyFor(id, measure, value),
          ),
        ),
    ),
  );
}

function isKnown(draft: Draft, { assays }: AssayChain, id: string, measure: string): boolean {
  if (measure !== 'heatingValue') return assays.get(id)?.[measure] !== undefined;
  return draft.fragments.materials.some(
    ({ value, unclear }) =>
      value.id === id && (value.heatingValue !== undefined || unclear.has('heatingValue')),
  );
}

function isUnclear({ assays, unclear }: AssayChain, id: string, measure: string): boolean {
  return measure !== 'heatingValue' && assays.get(id) === undefined && unclear.has(id);
}

function remedyFor(id: string, measure: string, { materials }: Contract): string {
  const state =
    measure === 'heatingValue'
      ? `State the heatingValue of '${id}'`
      : `Add ${measure} to the assay of '${id}'`;
  return materials.length > 1
    ? `${state}, or take '${id}' out of the contract`
    : `${state}, or drop the limit`;
}
