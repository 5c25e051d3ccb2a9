import { readFileSync } from 'node:fs';
import { planMonths } from '../../src/analysis/monthly-plan.js';
import type { PlannedAnswer } from '../../src/analysis/plan-answer.js';
import { derivePlant } from '../../src/plant/derive-plant.js';
import type { Plant } from '../../src/plant/plant.js';
import { readPlant } from '../../src/plant/read-plant.js';
import type { Scenario } from '../../src/scenario/schema/scenario.js';
import { type EngineChoice, loadSolver } from '../../src/solver/choose.js';

export const SHIPPED = ['one-month', 'twelve-months', 'short-tons'] as const;

export type Shipped = (typeof SHIPPED)[number];

export function textOf(name: Shipped, extension: 'json' | 'md' = 'json'): string {
  return readFileSync(new URL(`../../scenarios/${name}.${extension}`, import.meta.url), 'utf8');
}

/** @throws Error where the shipped file does not parse */
export function shippedScenario(name: Shipped): Scenario {
  const reading = readPlant(textOf(name));
  if (!reading.ok) throw new Error(JSON.stringify(reading.problems, undefined, 1));
  return reading.scenario;
}

/** The same plant with every crew paid by the hour: no whole numbers. */
export function paidByTheHour(scenario: Scenario): Scenario {
  return { ...scenario, crews: scenario.crews?.map((crew) => ({ ...crew, staffing: 'hourly' as const })) };
}

export interface Planned {
  readonly plant: Plant;
  readonly answer: PlannedAnswer;
}

/** @throws Error where there is no certified plan */
export async function planOf(scenario: Scenario, choice: EngineChoice = 'auto'): Promise<Planned> {
  const plant = derivePlant(scenario);
  const answer = planMonths(plant, await loadSolver(choice));
  if (!('plan' in answer)) throw new Error(JSON.stringify(answer));
  return { plant, answer };
}

const planned = new Map<string, Promise<Planned>>();

/** The plan of a shipped scenario with its crews paid by the hour, solved once a test file. */
export function linearPlanOf(name: Shipped): Promise<Planned> {
  const known = planned.get(name) ?? planOf(paidByTheHour(shippedScenario(name)));
  planned.set(name, known);
  return known;
}

/** Duals of the rows of a kind, in present value by unit of the row's right side. */
export function dualsOf({ answer }: Planned, kind: string): { key: Record<string, unknown>; dual: number }[] {
  const { formulation, rowDual } = answer.solved;
  return formulation.program.rowKeys.flatMap((key, row) =>
    key.kind === kind ? [{ key: { ...key }, dual: rowDual[row] }] : [],
  );
}
