import { monthsOf } from '../../calendar/month.js';
import type { Problem } from '../../issue/problem.js';
import { resolvePointer, toIdPointer } from '../../scenario/pointer.js';
import type { Series } from '../../scenario/schema/figures.js';
import type { Scenario, Uncertainty } from '../../scenario/schema/scenario.js';
import { spread } from '../../scenario/series.js';
import { figuresOf, withFigures } from '../variant/parameter.js';
import type { DrawFactors } from './draw-factors.js';

export type UncertainNumbers =
  | { readonly ok: true; readonly targets: readonly Uncertainty[]; readonly base: unknown }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/**
 * The uncertain numbers of a scenario in the order of their id pointers, and the scenario with each series that
 * is drawn month by month spread over the months.
 */
export function uncertainNumbers(scenario: Scenario): UncertainNumbers {
  const entries = scenario.uncertainty ?? [];
  const named = entries.map((entry) => ({
    ...entry,
    target: toIdPointer(scenario, entry.target) ?? entry.target,
  }));
  const targets = named.sort((a, b) => (a.target < b.target ? -1 : a.target > b.target ? 1 : 0));
  const problems = targets.flatMap((target) => {
    const found = figuresOf(scenario, { pointers: [target.target] });
    return found.ok ? [] : found.problems;
  });
  if (problems.length > 0) return { ok: false, problems };
  let base: unknown = scenario;
  for (const { target, eachMonth } of targets) {
    if (eachMonth === true) base = withSpread(base, scenario, target);
  }
  return { ok: true, targets, base };
}

/** Uncertain numbers and what was drawn of them. */
export interface UncertainFactors {
  /** The scenario, ready for withFactors. */
  readonly base: unknown;
  readonly targets: readonly Uncertainty[];
  readonly factors: DrawFactors;
  /** The expected factors, [target][month, or one for the whole series]. */
  readonly centre: readonly (readonly number[])[];
}

/** The base with every target at its factors. */
export function withFactors(
  base: unknown,
  targets: readonly Uncertainty[],
  factors: readonly (readonly number[])[],
): unknown {
  return targets.reduce<unknown>((document, { target, eachMonth }, k) => {
    const found = figuresOf(document, { pointers: [target] });
    if (!found.ok) throw new RangeError(`${target} is no number`);
    const own = factors[k];
    return withFigures(document, found.figures, (old, i) => old * (eachMonth === true ? own[i] : own[0]));
  }, base);
}

/** The series at a pointer as one value for each month. */
function withSpread(document: unknown, { horizon }: Scenario, pointer: string): unknown {
  const location = resolvePointer(document, pointer);
  if (location === undefined) throw new RangeError(`${pointer} leads nowhere`);
  const months = monthsOf(horizon.firstMonth, horizon.months);
  const values = spread(location.value as Series<unknown>, months);
  return location.path.reduceRight<(at: unknown) => unknown>(
    (put, key) => (at) =>
      Array.isArray(at)
        ? at.map((entry, i) => (i === key ? put(entry) : entry))
        : { ...(at as object), [key]: put((at as Record<string | number, unknown>)[key]) },
    () => values,
  )(document);
}
