import type { Problem } from '../../issue/problem.js';
import { type Draft, entriesOf, LIST_NAMES, LIST_PATHS, type ListName, type Located } from '../draft.js';
import { NOUNS } from '../nouns.js';
import { problemAt } from '../place.js';
import { formatPointer, idOf } from '../pointer.js';

/** An id stands once in its list, contracts and offers share one namespace, a list names a thing once. */
export function checkIds(draft: Draft): Problem[] {
  return [
    ...LIST_NAMES.flatMap((list) => repeatedIds(draft, list)),
    ...offersNamedAsContracts(draft),
    ...draft.fragments.materials.flatMap(({ value, pointer }) =>
      value.id === 'return' ? [reservedReturn(draft, pointer)] : [],
    ),
    ...namedLists(draft).flatMap((list) => repeatedNames(draft, list)),
  ];
}

function idsOf(draft: Draft, list: ListName): Located<string>[] {
  return entriesOf(draft.document, list).flatMap((entry, position) => {
    const id = idOf(entry);
    return id === undefined
      ? []
      : [{ value: id, pointer: formatPointer([...LIST_PATHS[list], position, 'id']) }];
  });
}

function repeatedIds(draft: Draft, list: ListName): Problem[] {
  return repeated(idsOf(draft, list)).map(({ value, pointer }) =>
    problemAt(
      draft.document,
      pointer,
      'duplicate id',
      `another ${NOUNS[list]} has the id '${value}' too`,
      'Give one of the two another id',
    ),
  );
}

function offersNamedAsContracts(draft: Draft): Problem[] {
  return idsOf(draft, 'offers')
    .filter(({ value }) => draft.declared.contracts.has(value))
    .map(({ value, pointer }) =>
      problemAt(
        draft.document,
        pointer,
        'duplicate id',
        `a contract has the id '${value}' too`,
        'Give the offer another id: an offer may become a contract',
      ),
    );
}

function reservedReturn(draft: Draft, pointer: string): Problem {
  return problemAt(
    draft.document,
    `${pointer}/id`,
    'reserved',
    "'return' names what a screen sends back, and is reserved for it",
    'Give the material another id',
  );
}

interface NamedList {
  readonly names: readonly string[];
  readonly pointer: string;
}

function namedLists(draft: Draft): NamedList[] {
  const { windows, stores, contracts, offers, disposals } = draft.fragments;
  return [
    { names: draft.closed ?? [], pointer: '/operation/closed' },
    ...windows.map(({ value, pointer }) => ({ names: value.days ?? [], pointer: `${pointer}/days` })),
    ...[...stores, ...contracts, ...offers, ...disposals].map(({ value, pointer }) => ({
      names: value.materials ?? [],
      pointer: `${pointer}/materials`,
    })),
  ];
}

function repeatedNames(draft: Draft, { names, pointer }: NamedList): Problem[] {
  const located = names.map((value, i) => ({ value, pointer: `${pointer}/${i}` }));
  return repeated(located).map(({ value, pointer: place }) =>
    problemAt(draft.document, place, 'conflict', `'${value}' is listed twice`, 'List it once'),
  );
}

function repeated(located: readonly Located<string>[]): Located<string>[] {
  const seen = new Set<string>();
  return located.filter(({ value }) => seen.has(value) || !seen.add(value));
}
