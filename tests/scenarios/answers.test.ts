import { describe, expect, it } from 'vitest';
import { readPlant } from '../../src/plant/read-plant.js';
import { objectiveAt } from '../../src/program/linear-program.js';
import type { EngineName } from '../../src/solver/port.js';
import {
  linearPlanOf,
  type Planned,
  paidByTheHour,
  planOf,
  SHIPPED,
  type Shipped,
  shippedScenario,
  textOf,
} from './shipped.js';

/** The engines that solve the scenario without whole numbers. The small engine takes minutes over twelve months. */
const ENGINES: Readonly<Record<Shipped, readonly EngineName[]>> = {
  'one-month': ['javascript-lp-solver', 'highs'],
  'short-tons': ['javascript-lp-solver', 'highs'],
  'twelve-months': ['highs'],
};

const TOLERANCE = 1e-6;

describe.each(SHIPPED)('%s', (name) => {
  it('parses without a problem and without a warning', () => {
    const reading = readPlant(textOf(name));
    expect(reading.ok ? reading.warnings : reading.problems).toEqual([]);
  });

  it('says that its figures are invented, in the document and in the story', () => {
    expect(shippedScenario(name).note).toMatch(/^Invented/);
    expect(textOf(name, 'md')).toMatch(/invented, except the starter figures/);
  });

  it.each(ENGINES[name])('is solved by %s, with a certificate, to the same value', async (engine) => {
    const own = await planOf(paidByTheHour(shippedScenario(name)), engine);
    const { plan } = (await linearPlanOf(name)).answer;
    expect(own.answer.status).toBe('optimal');
    expect(own.answer.plan.certificate.accepted).toBe(true);
    const difference = own.answer.plan.statement.presentValue - plan.statement.presentValue;
    expect(Math.abs(difference) / plan.statement.scale).toBeLessThan(TOLERANCE);
    expectSums(own);
  });
});

it('twelve months with crews by the shift come within a ten-thousandth of the scale', async () => {
  const planned = await planOf(shippedScenario('twelve-months'));
  const { status, whole, plan } = planned.answer;
  expect(status).toBe('optimal');
  expect(plan.certificate.accepted).toBe(true);
  expect(whole?.claimed).toBeLessThanOrEqual(1e-4);
  const shifts = plan.months.flatMap(({ crews }) => crews.flatMap(({ windows }) => windows));
  expect(shifts.every(({ shifts: called }) => Number.isInteger(called))).toBe(true);
  expectSums(planned);
});

/** The statement adds up to the objective, and what came in went out or lies in stock. */
function expectSums({ answer }: Planned): void {
  const { statement, massBalance } = answer.plan;
  const { formulation, primal } = answer.solved;
  const objective = objectiveAt(formulation.program, primal);
  expect(Math.abs(statement.presentValue - objective) / statement.scale).toBeLessThan(TOLERANCE);
  const throughput = massBalance.in + massBalance.out;
  expect(Math.abs(massBalance.residual) / throughput).toBeLessThan(TOLERANCE);
  for (const { residual } of massBalance.materials) {
    expect(Math.abs(residual) / throughput).toBeLessThan(TOLERANCE);
  }
}
