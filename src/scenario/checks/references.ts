import type { Problem } from '../../issue/problem.js';
import { type Draft, LIST_NAMES, type ListName, type Located } from '../draft.js';
import { nearest } from '../nearest.js';
import { NOUNS, withArticle } from '../nouns.js';
import { listed, problemAt } from '../place.js';
import { byMaterialOf, formulaOf } from './figures.js';
import { outputsOf } from './outputs.js';

/** A place that names something of a list. */
export interface Reference extends Located<string> {
  readonly list: ListName;
}

/** Every reference leads to something of the right kind. */
export function checkReferences(draft: Draft): Problem[] {
  return referencesIn(draft).flatMap((reference) =>
    draft.declared[reference.list].has(reference.value) ? [] : [problemOf(draft, reference)],
  );
}

/** Every reference in the draft. */
export function referencesIn(draft: Draft): Reference[] {
  const { stores, feeds, machines, steps, outlets, contracts, offers, disposals } = draft.fragments;
  return [
    ...stores.flatMap(({ value, pointer }) => each(value.materials, `${pointer}/materials`)),
    ...feeds.flatMap(({ value, pointer }) => one('materials', value.material, `${pointer}/material`)),
    ...machines.flatMap(({ value, pointer }) => one('crews', value.crew, `${pointer}/crew`)),
    ...steps.flatMap((step) => [
      ...one('machines', step.value.machine, `${step.pointer}/machine`),
      ...one('materials', step.value.input, `${step.pointer}/input`),
      ...outputsOf(step).map((output): Reference => ({ list: 'materials', ...output })),
    ]),
    ...outlets.flatMap(({ value, pointer }) => one('materials', value.material, `${pointer}/material`)),
    ...[...contracts, ...offers].flatMap((contract) => {
      const { value, pointer } = contract;
      const prices = byMaterialOf(contract);
      return [
        ...each(value.materials, `${pointer}/materials`),
        ...one('indices', formulaOf(value.price)?.index, `${pointer}/price/index`),
        ...Object.keys(prices?.value ?? {}).flatMap((key) =>
          one('materials', key, `${prices?.pointer}/${key}`),
        ),
      ];
    }),
    ...disposals.flatMap(({ value, pointer }) => each(value.materials, `${pointer}/materials`)),
  ];
}

function one(list: ListName, value: string | undefined, pointer: string): Reference[] {
  return value === undefined ? [] : [{ list, value, pointer }];
}

function each(materials: readonly string[] | undefined, pointer: string): Reference[] {
  return (materials ?? []).map((value, i) => ({ list: 'materials', value, pointer: `${pointer}/${i}` }));
}

const FEW = 8;

function problemOf(draft: Draft, { list, value, pointer }: Reference): Problem {
  const known = [...draft.declared[list]];
  const near = nearest(value, known);
  const elsewhere = LIST_NAMES.find((other) => draft.declared[other].has(value));
  const names = known.map((id) => `'${id}'`);
  return problemAt(
    draft.document,
    pointer,
    'unknown reference',
    elsewhere === undefined
      ? `there is no ${NOUNS[list]} '${value}'`
      : `'${value}' is ${withArticle(elsewhere)}, not ${withArticle(list)}`,
    near !== undefined
      ? `Write '${near}', or declare '${value}' under \`${list}\``
      : names.length === 0 || names.length > FEW
        ? `Declare '${value}' under \`${list}\`, or name ${withArticle(list)} that is declared`
        : `Write ${listed(names, 'or')}, or declare '${value}' under \`${list}\``,
  );
}
