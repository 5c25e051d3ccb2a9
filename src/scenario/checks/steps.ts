import type { Problem } from '../../issue/problem.js';
import type { Draft, Fragment } from '../draft.js';
import { problemAt, shown } from '../place.js';
import type { Step } from '../schema/scenario.js';
import { outputsOf } from './outputs.js';

/** A step has one throughput, closes its mass, and makes something else than it takes in. */
export function checkSteps(draft: Draft): Problem[] {
  return draft.fragments.steps.flatMap((step) => [
    ...oneThroughput(draft, step),
    ...closingShares(draft, step),
    ...ownInput(draft, step),
  ]);
}

/** Σ shares = 1 to this. */
const CLOSING_TOLERANCE = 1e-9;

function oneThroughput(draft: Draft, { value, pointer, unclear }: Fragment<Step>): Problem[] {
  const has = (key: 'throughput' | 'circuit') => value[key] !== undefined || unclear.has(key);
  if (has('throughput') !== has('circuit')) return [];
  return [
    has('circuit')
      ? problemAt(
          draft.document,
          pointer,
          'circuit',
          'it has both `throughput` and `circuit`',
          'Keep `circuit` where the oversize goes back to the cutter, and `throughput` where it does not',
        )
      : problemAt(
          draft.document,
          pointer,
          'missing',
          'it has neither `throughput` nor `circuit`',
          'Add `throughput`, the input mass per machine-hour, or `circuit`',
        ),
  ];
}

function closingShares(draft: Draft, { value, pointer }: Fragment<Step>): Problem[] {
  if (value.yields === undefined || !('shares' in value.yields)) return [];
  const sum = Object.values(value.yields.shares).reduce((total, share) => total + share, 0);
  if (Math.abs(sum - 1) <= CLOSING_TOLERANCE) return [];
  return [
    problemAt(
      draft.document,
      `${pointer}/yields/shares`,
      'yields',
      `the yields add up to ${shown(sum)}, not 1`,
      sum < 1
        ? `Add the missing ${shown(1 - sum)}: what is lost to dust or moisture is a material too`
        : `Take off the ${shown(sum - 1)} too many`,
    ),
  ];
}

function ownInput(draft: Draft, step: Fragment<Step>): Problem[] {
  const { input } = step.value;
  return outputsOf(step)
    .filter((output) => output.value === input)
    .map(({ pointer }) =>
      problemAt(
        draft.document,
        pointer,
        'circuit',
        `the step makes its own input '${input}'`,
        'Give what goes back to the cutter as `circuit`, or as the "return" of a first deck; give what comes out changed as a material of its own',
      ),
    );
}
