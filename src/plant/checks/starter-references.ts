import type { Problem } from '../../issue/problem.js';
import { STARTER_FIGURES } from '../../quantity/starter-figures.js';
import type { Draft } from '../../scenario/draft.js';
import { starterReferences } from '../../scenario/material-figures.js';
import { nearest } from '../../scenario/nearest.js';
import { listed, problemAt } from '../../scenario/place.js';

/** Published figures that materials refer to must be in the table. */
export function checkStarterReferences(draft: Draft): Problem[] {
  return draft.fragments.materials.flatMap(({ value, pointer }) =>
    starterReferences(value).flatMap(({ field, id }) => {
      const ids = STARTER_FIGURES[field].map((figure) => figure.id);
      if (ids.includes(id)) return [];
      const near = nearest(id, ids);
      return [
        problemAt(
          draft.document,
          `${pointer}/${field}/from`,
          'unknown reference',
          `there is no published figure '${id}' for ${field}`,
          near === undefined ? `Name one of ${listed(ids, 'or')}` : `Write '${near}'`,
        ),
      ];
    }),
  );
}
