import type { Problem } from '../../issue/problem.js';
import type { Draft, ListName } from '../../scenario/draft.js';
import { listed, problemAt } from '../../scenario/place.js';
import { endlessLoops } from '../endless-loops.js';
import { outputsNamed } from '../step-outputs.js';
import { draftChain } from './draft-chain.js';

const LISTS: readonly ListName[] = ['materials', 'steps', 'outlets', 'contracts', 'disposals'];

/** What goes round between steps must be able to leave. */
export function checkLoops(draft: Draft): Problem[] {
  if (LISTS.some((list) => draft[list].length < draft.fragments[list].length)) return [];
  const { outputs } = draftChain(draft);
  const passages = draft.steps.map(({ value: { id, input, yields } }) => ({
    input,
    outputs:
      outputs
        .get(id)
        ?.filter(({ share }) => share > 0)
        .map(({ material }) => material) ?? outputsNamed(yields),
  }));
  // A step that makes its own input is told elsewhere.
  const loops = endlessLoops(passages, exitsOf(draft)).filter((loop) => loop.length > 1);
  return loops.map((loop) => {
    const step = draft.steps.find(({ value }) => loop.includes(value.input))!;
    const names = listed(
      loop.map((id) => `'${id}'`),
      'and',
    );
    return problemAt(
      draft.document,
      `${step.pointer}/yields`,
      'circuit',
      `the steps turn ${names} into one another and into nothing else: the loop can never empty`,
      'Add a step that makes something else of one of them, or an outlet, contract, disposal or stock for it',
    );
  });
}

/** Materials that can leave, or be kept. */
function exitsOf(draft: Draft): Set<string> {
  return new Set([
    ...draft.outlets.map(({ value }) => value.material),
    ...draft.contracts.flatMap(({ value }) => value.materials),
    ...draft.disposals.flatMap(({ value }) => value.materials),
    ...draft.materials.filter(({ value }) => value.stock !== undefined).map(({ value }) => value.id),
  ]);
}
