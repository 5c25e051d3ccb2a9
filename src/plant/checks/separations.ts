import type { Problem } from '../../issue/problem.js';
import type { Draft } from '../../scenario/draft.js';
import { problemAt, shown } from '../../scenario/place.js';
import { formatPointer } from '../../scenario/pointer.js';
import { CLOSING_TOLERANCE } from '../assay.js';
import type { Separation } from '../separation.js';
import { draftChain } from './draft-chain.js';

/** Separations: a constituent leaves once, is one of the input's, and the remainder is a stream of its own. */
export function checkSeparations(draft: Draft): Problem[] {
  const { assays } = draftChain(draft);
  return draft.steps.flatMap(({ value, pointer }) => {
    if (!('separation' in value.yields)) return [];
    const place = `${pointer}/yields/separation`;
    const constituents = Object.keys(assays.get(value.input) ?? {});
    return [
      ...remainderProblems(draft, place, value.yields.separation),
      ...recoveryProblems(draft, place, value.yields.separation),
      ...(constituents.length === 0
        ? []
        : constituentProblems(draft, place, value.yields.separation, value.input, constituents)),
    ];
  });
}

function remainderProblems({ document }: Draft, place: string, { to, remainder }: Separation): Problem[] {
  if (!Object.hasOwn(to, remainder)) return [];
  return [
    problemAt(
      document,
      `${place}/remainder`,
      'yields',
      `'${remainder}' takes the remainder and has recoveries too`,
      'Leave it out of `to`, or name another material as the remainder',
    ),
  ];
}

/** Σ_k R[k,c] ≤ 1 for each constituent c. */
function recoveryProblems({ document }: Draft, place: string, { to }: Separation): Problem[] {
  const totals = new Map<string, number>();
  for (const [constituent, recovery] of Object.values(to).flatMap((recoveries) =>
    Object.entries(recoveries),
  )) {
    totals.set(constituent, (totals.get(constituent) ?? 0) + recovery);
  }
  return [...totals]
    .filter(([, total]) => total > 1 + CLOSING_TOLERANCE)
    .map(([constituent, total]) =>
      problemAt(
        document,
        `${place}/to`,
        'yields',
        `the recoveries of ${constituent} add up to ${shown(total)}, more than 1`,
        `Lower the recoveries of ${constituent}: the remainder takes what they leave of 1`,
      ),
    );
}

function constituentProblems(
  { document }: Draft,
  place: string,
  { to }: Separation,
  input: string,
  constituents: readonly string[],
): Problem[] {
  return Object.entries(to).flatMap(([material, recoveries]) =>
    Object.keys(recoveries)
      .filter((constituent) => !constituents.includes(constituent))
      .map((constituent) =>
        problemAt(
          document,
          place + formatPointer(['to', material, constituent]),
          'assay',
          `'${constituent}' is no constituent of '${input}', which is made of ${constituents.join(', ')}`,
          `Name one of its constituents, or add ${constituent} to its assay`,
        ),
      ),
  );
}
