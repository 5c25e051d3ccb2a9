import type { Problem } from '../../issue/problem.js';
import { type Draft, entriesOf, type Fragment, type ListName } from '../draft.js';
import { nearest } from '../nearest.js';
import { problemAt } from '../place.js';
import type { Material } from '../schema/scenario.js';
import { outputsOf } from './outputs.js';

/**
 * Every material can go somewhere: to an outlet, a contract, an offer, a disposal, a step or a stock. A
 * misspelt or misshapen mention counts for the material that it probably means.
 */
export function checkDeadEnds(draft: Draft): Problem[] {
  const ways = mentions(draft);
  const made = new Set(draft.fragments.steps.flatMap((step) => outputsOf(step).map(({ value }) => value)));
  const fed = new Set(draft.fragments.feeds.map(({ value }) => value.material));
  return draft.fragments.materials.flatMap((material) => {
    const { id } = material.value;
    if (id === undefined || ways.has(id) || isHeld(material)) return [];
    const origin = fed.has(id) ? 'comes in' : made.has(id) ? 'is made' : 'is declared';
    return [
      problemAt(
        draft.document,
        material.pointer,
        'dead end',
        `the material ${origin}, and has no outlet, contract, disposal, step or stock`,
        origin === 'is declared'
          ? 'Delete it, or add what makes it and where it goes'
          : 'Add an outlet, contract, disposal, step or stock for it: nothing leaves the plant for free',
      ),
    ];
  });
}

function isHeld({ value, unclear }: Fragment<Material>): boolean {
  return value.stock !== undefined || unclear.has('stock');
}

const WAYS: readonly (readonly [ListName, string])[] = [
  ['outlets', 'material'],
  ['contracts', 'materials'],
  ['offers', 'materials'],
  ['disposals', 'materials'],
  ['steps', 'input'],
];

/** The materials that some way out names, read from what is written there, whatever its shape. */
function mentions(draft: Draft): Set<string> {
  const known = draft.declared.materials;
  const named = WAYS.flatMap(([list, key]) =>
    entriesOf(draft.document, list).flatMap((entry) =>
      stringsIn((entry as Record<string, unknown> | null)?.[key]),
    ),
  );
  return new Set(named.map((name) => (known.has(name) ? name : (nearest(name, known) ?? name))));
}

function stringsIn(value: unknown): string[] {
  if (typeof value === 'string') return [value];
  return Array.isArray(value) ? value.filter((item) => typeof item === 'string') : [];
}
