import type { Feed, Machine, Material, Scenario, Step } from '../../src/scenario/schema/scenario.js';
import { machineHours } from './hours.js';
import { netThroughput, stepShares } from './step-shares.js';

/** A plan that surely works: committed feed shredded, and half of each rung sent on to the next. */
export interface Baseline {
  /** Share of the committed mass that fits into the hours, at most 1. */
  readonly fits: number;
  /** Mass a month of each material that nobody in the plant takes, at the committed mass that fits. */
  readonly left: Readonly<Record<string, number>>;
}

const SENT_ON = 0.5;
const HOURS_USED = 0.85;

/** Steps must be in the order of the ladder; the first step that takes a material takes the half of it. */
export function baselineOf(
  feeds: readonly Feed[],
  steps: readonly Step[],
  machines: readonly Machine[],
  materials: readonly Material[],
  operation: Scenario['operation'],
  horizon: Scenario['horizon'],
): Baseline {
  const left: Record<string, number> = {};
  const hours: Record<string, number> = {};
  for (const feed of feeds) left[feed.material] = (left[feed.material] ?? 0) + (feed.committed as number);
  const done = new Set<string>();
  for (const step of steps) {
    if (done.has(step.input)) continue;
    done.add(step.input);
    const isFed = feeds.some((feed) => feed.material === step.input);
    const run = (left[step.input] ?? 0) * (isFed ? 1 : SENT_ON);
    left[step.input] = (left[step.input] ?? 0) - run;
    hours[step.machine] = (hours[step.machine] ?? 0) + run / netThroughput(step);
    const input = materials.find((material) => material.id === step.input)!;
    for (const [output, share] of Object.entries(stepShares(step, input))) {
      left[output] = (left[output] ?? 0) + run * share;
    }
  }
  const room = machines.map((machine) => {
    const available = Math.min(...machineHours(machine, operation, horizon));
    return (HOURS_USED * available) / Math.max(hours[machine.id] ?? 0, 1e-9);
  });
  const fits = Math.min(1, ...room);
  return { fits, left: Object.fromEntries(Object.entries(left).map(([id, mass]) => [id, mass * fits])) };
}
