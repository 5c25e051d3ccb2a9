import type { PlanMonth } from '../../planning/plan.js';
import type { WayOn } from '../charts/ladder-chart.js';
import { grouped } from '../grouped.js';
import type { PlannedDocument } from '../plan-document.js';
import { shareOf, sumOf } from '../sum.js';

/** The steps that lead on from each rung, those with the most input first. */
export type WaysOn = ReadonlyMap<string, readonly WayOn[]>;

/**
 * Where each rung may go on to, with the use of the machines' hours. What going on would bring is not in a plan's
 * document; an explanation adds it.
 */
export function waysOn({ months, names }: PlannedDocument, month: number | undefined): WaysOn {
  const chosen = month === undefined ? months : [months[month]];
  const steps = chosen.flatMap((each) => each.steps);
  const byInput = new Map<string, WayOn[]>();
  for (const [input, runs] of grouped(steps, (step) => step.input)) {
    const ways = [...grouped(runs, ({ step }) => step)].map(([step, all]) => ({
      step: names.steps[step],
      machine: names.machines[all[0].machine],
      use: useOf(chosen, all[0].machine),
      mass: sumOf(all, ({ mass }) => mass),
    }));
    byInput.set(
      input,
      ways.sort((a, b) => b.mass - a.mass),
    );
  }
  return byInput;
}

function useOf(months: readonly PlanMonth[], machine: string): number | undefined {
  const parts = months.flatMap((month) => month.machines.filter((each) => each.machine === machine));
  return shareOf(
    sumOf(parts, ({ hours }) => hours),
    sumOf(parts, ({ available }) => available),
  );
}
