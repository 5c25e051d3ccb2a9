import type { Problem } from '../../issue/problem.js';
import type { Draft, Fragment } from '../draft.js';
import { problemAt, shown } from '../place.js';
import type { Material, Store } from '../schema/scenario.js';
import { byMonth, firstMonthAbove } from './by-month.js';

/** Stocks and stores can hold what they are said to hold. */
export function checkStocks(draft: Draft): Problem[] {
  return [
    ...draft.fragments.materials.flatMap((material) => stockProblems(draft, material)),
    ...draft.fragments.stores.flatMap((store) => [
      ...unheldMaterials(draft, store),
      ...overfullStore(draft, store),
    ]),
  ];
}

function stockProblems(draft: Draft, { value, pointer }: Fragment<Material>): Problem[] {
  const { capacity, min, opening = 0, closing } = value.stock ?? {};
  if (capacity === undefined) return [];
  const place = `${pointer}/stock`;
  const capacities = byMonth(draft, capacity);
  const first = capacities?.[0];
  const last = capacities?.[capacities.length - 1];
  const above = min === undefined ? undefined : firstMonthAbove(draft, min, capacity);
  const overfull = first !== undefined && opening > first;
  const closingMin = closing?.min ?? opening;
  return [
    ...(overfull
      ? problem(
          draft,
          `${place}/opening`,
          `the opening stock of ${shown(opening)} is above the capacity of ${shown(first)}`,
        )
      : []),
    ...(above === undefined
      ? []
      : problem(
          draft,
          `${place}/min`,
          `the minimum of ${shown(above.figure)} is above the capacity of ${shown(above.limit)} in ${above.month}`,
        )),
    ...(last !== undefined && closingMin > last && (closing?.min !== undefined || !overfull)
      ? problem(
          draft,
          closing?.min === undefined ? `${place}/opening` : `${place}/closing/min`,
          `the closing stock of at least ${shown(closingMin)} is above the capacity of ${shown(last)} in the last month`,
        )
      : []),
  ];
}

function unheldMaterials(draft: Draft, { value, pointer }: Fragment<Store>): Problem[] {
  return (value.materials ?? []).flatMap((id, i) => {
    const material = draft.fragments.materials.find((candidate) => candidate.value.id === id);
    if (material === undefined || material.value.stock !== undefined || material.unclear.has('stock'))
      return [];
    return problem(
      draft,
      `${pointer}/materials/${i}`,
      `'${id}' has no stock, so that it is never held`,
      `Add \`stock\` to '${id}' (an empty object will do), or take it out of the store`,
    );
  });
}

function overfullStore(draft: Draft, { value, pointer }: Fragment<Store>): Problem[] {
  const { capacity, materials = [] } = value;
  if (capacity === undefined) return [];
  const opening = draft.fragments.materials
    .filter(({ value: { id } }) => id !== undefined && materials.includes(id))
    .reduce((sum, { value: { stock } }) => sum + (stock?.opening ?? 0), 0);
  if (opening <= capacity) return [];
  return problem(
    draft,
    `${pointer}/capacity`,
    `its materials open with ${shown(opening)} together, above its capacity of ${shown(capacity)}`,
  );
}

function problem(
  draft: Draft,
  pointer: string,
  text: string,
  remedy = 'Lower the stock, or raise the capacity',
): Problem[] {
  return [problemAt(draft.document, pointer, 'stock', text, remedy)];
}
