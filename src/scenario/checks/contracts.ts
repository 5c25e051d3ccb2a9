import type { Problem } from '../../issue/problem.js';
import type { Draft, Fragment } from '../draft.js';
import { listed, problemAt, shown } from '../place.js';
import type { Contract } from '../schema/scenario.js';
import { compareRates, firstMonthAbove } from './by-month.js';
import { byMaterialOf, formulaOf } from './figures.js';

type ContractCheck = (draft: Draft, contract: Fragment<Contract>) => readonly Problem[];

/** What a contract promises is possible, and its price is one for each of its materials. */
export function checkContracts(draft: Draft): Problem[] {
  const checks: readonly ContractCheck[] = [
    monthlyLimits,
    termLimits,
    expectedCall,
    qualityLimits,
    termCharge,
    pricedMaterials,
    clampedPrice,
  ];
  return [...draft.fragments.contracts, ...draft.fragments.offers].flatMap((contract) =>
    checks.flatMap((check) => check(draft, contract)),
  );
}

function monthlyLimits(draft: Draft, { value, pointer }: Fragment<Contract>): Problem[] {
  const { min, max } = value.monthly ?? {};
  const above = min === undefined || max === undefined ? undefined : firstMonthAbove(draft, min, max);
  if (above === undefined) return [];
  return problem(
    draft,
    `${pointer}/monthly/min`,
    `the minimum of ${shown(above.figure)} is above the maximum of ${shown(above.limit)} in ${above.month}`,
    'Lower the minimum or raise the maximum',
  );
}

function termLimits(draft: Draft, { value, pointer }: Fragment<Contract>): Problem[] {
  const { min = 0, max = Number.POSITIVE_INFINITY, delivered = 0 } = value.term ?? {};
  return [
    ...(min > max
      ? problem(
          draft,
          `${pointer}/term/min`,
          `the minimum of ${shown(min)} is above the maximum of ${shown(max)} of the term`,
          'Lower the minimum or raise the maximum',
        )
      : []),
    ...(delivered > max
      ? problem(
          draft,
          `${pointer}/term/delivered`,
          `${shown(delivered)} are delivered, more than the maximum of ${shown(max)} of the term`,
          'Correct what was delivered, or raise the maximum; delete a contract that is fulfilled',
        )
      : []),
  ];
}

function expectedCall(draft: Draft, { value, pointer }: Fragment<Contract>): Problem[] {
  const { call, monthly } = value;
  if (call === undefined || monthly === undefined) return [];
  const { min, max } = monthly;
  const above = max === undefined ? undefined : firstMonthAbove(draft, call.expected, max);
  const below = min === undefined ? undefined : firstMonthAbove(draft, min, call.expected);
  const [month, expected, limit] =
    above !== undefined
      ? [above.month, above.figure, `above the maximum of ${shown(above.limit)}`]
      : below !== undefined
        ? [below.month, below.limit, `below the minimum of ${shown(below.figure)}`]
        : [];
  if (month === undefined || expected === undefined) return [];
  return problem(
    draft,
    `${pointer}/call/expected`,
    `the expected call of ${shown(expected)} is ${limit} in ${month}`,
    'Expect a call between the minimum and the maximum of the month',
  );
}

function qualityLimits(draft: Draft, { value, pointer }: Fragment<Contract>): Problem[] {
  return (value.quality ?? []).flatMap(({ measure, min, max }, i) => {
    const place = `${pointer}/quality/${i}`;
    const isShare = measure !== 'heatingValue';
    const overOne = (['min', 'max'] as const).filter((key) => isShare && (value.quality![i][key] ?? 0) > 1);
    return [
      ...(min === undefined && max === undefined
        ? problem(draft, place, `it limits ${measure} neither below nor above`, 'Add `min` or `max`')
        : []),
      ...(min !== undefined && max !== undefined && min > max
        ? problem(
            draft,
            `${place}/min`,
            `the minimum of ${shown(min)} is above the maximum of ${shown(max)}`,
            'Lower the minimum or raise the maximum',
          )
        : []),
      ...overOne.map((key) =>
        problemAt(
          draft.document,
          `${place}/${key}`,
          'out of range',
          `${measure} is a share by mass, and ${shown(value.quality![i][key]!)} is above 1`,
          'Write a share between 0 and 1: 5 % is 0.05',
        ),
      ),
      ...(value.quality!.slice(0, i).some((other) => other.measure === measure)
        ? problem(draft, place, `${measure} is limited twice`, 'Write both limits of a measure in one entry')
        : []),
    ];
  });
}

function termCharge(draft: Draft, { value, pointer, unclear }: Fragment<Contract>): Problem[] {
  const { shortfall, term } = value;
  if (shortfall?.termCharge === undefined || unclear.has('term') || term?.min !== undefined) return [];
  return problem(
    draft,
    `${pointer}/shortfall/termCharge`,
    'it charges for a missed term, and the contract has no minimum over its term',
    'Add `term.min`, or delete `termCharge`',
  );
}

function pricedMaterials(draft: Draft, contract: Fragment<Contract>): Problem[] {
  const prices = byMaterialOf(contract);
  const { materials } = contract.value;
  if (prices === undefined || materials === undefined) return [];
  const priced = Object.keys(prices.value);
  // What is no material is told elsewhere, and its price may be the one that seems too many.
  const isDeclared = (id: string) => draft.declared.materials.has(id);
  const unpriced = priced.every(isDeclared)
    ? materials.filter((id) => !priced.includes(id) && isDeclared(id)).map((id) => `'${id}'`)
    : [];
  const strangers = materials.every(isDeclared)
    ? priced.filter((id) => !materials.includes(id) && isDeclared(id))
    : [];
  return [
    ...(unpriced.length === 0
      ? []
      : problem(
          draft,
          prices.pointer,
          `it has no price for ${listed(unpriced, 'and')}`,
          `Add a price for ${listed(unpriced, 'and')}, or take ${unpriced.length === 1 ? 'it' : 'them'} out of \`materials\``,
        )),
    ...strangers.flatMap((id) =>
      problem(
        draft,
        `${prices.pointer}/${id}`,
        `it prices '${id}', which the contract does not take`,
        `Add '${id}' to \`materials\`, or delete its price`,
      ),
    ),
  ];
}

function clampedPrice(draft: Draft, { value, pointer }: Fragment<Contract>): Problem[] {
  const { floor, ceiling } = formulaOf(value.price) ?? {};
  if (floor === undefined || ceiling === undefined) return [];
  const crossed = (value.materials ?? []).find((id) => (compareRates(draft, floor, ceiling, id) ?? 0) > 0);
  if (crossed === undefined) return [];
  return problem(
    draft,
    `${pointer}/price/floor`,
    `the floor is above the ceiling for '${crossed}'`,
    'Lower the floor or raise the ceiling',
  );
}

function problem(draft: Draft, pointer: string, text: string, remedy: string): Problem[] {
  return [problemAt(draft.document, pointer, 'contract', text, remedy)];
}
