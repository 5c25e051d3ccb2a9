import { describe, expect, it } from 'vitest';
import { BATCH } from '../../../src/analysis/risk/draw-paths.js';
import type { DrawOutcome, EvaluatedDraw } from '../../../src/analysis/risk/evaluate-draws.js';
import { riskAnswer, riskOutcome } from '../../../src/analysis/risk/risk.js';
import { formulate } from '../../../src/planning/formulate.js';
import { derivePlant } from '../../../src/plant/derive-plant.js';
import { tinyScenario } from '../../planning/tiny-plant.js';

const expected = formulate(derivePlant(tinyScenario()));
const model = { expected, factors: Array.from({ length: 3 * BATCH }, () => [[1]]) };
const request = { seed: 1 };

const planned = (value: number): DrawOutcome => ({
  kind: 'planned',
  value,
  scale: 1,
  left: expected.plant.materials.map(() => 0),
});

/** Draws from one on, in an order that is not theirs; the value of each is its place. */
function draws(from: number, count: number): EvaluatedDraw[] {
  return Array.from({ length: count }, (_, i) => ({ draw: from + i, outcome: planned(from + i) })).reverse();
}

describe('a risk that was stopped', () => {
  it('before the first draw has no answer', () => {
    expect(riskOutcome(model, [], request)).toEqual({ status: 'cancelled' });
    expect(riskOutcome(model, draws(0, 1), request).status).toBe('partial');
  });

  it('within the first batch says that its draws are alike', () => {
    const answer = riskAnswer(model, draws(0, BATCH - 1), request);
    expect(answer).toMatchObject({ status: 'partial', evaluated: BATCH - 1, areAlike: true });
  });

  it('after a batch counts whole batches only, which are samples', () => {
    const answer = riskAnswer(model, [...draws(BATCH, BATCH), ...draws(0, 7)], request);
    expect(answer).toMatchObject({ status: 'partial', evaluated: BATCH });
    expect(answer.areAlike).toBeUndefined();
    expect(answer.values).toEqual(Array.from({ length: BATCH }, (_, i) => BATCH + i));
  });

  it('names infeasible draws by their place among all, not among those that were come to', () => {
    const bad: EvaluatedDraw = { draw: BATCH + 3, outcome: { kind: 'infeasible', limits: [] } };
    const others = draws(BATCH, BATCH).filter(({ draw }) => draw !== bad.draw);
    const answer = riskAnswer(model, [bad, ...others], request);
    expect(answer.withoutPlan.firstInfeasible).toEqual([bad.draw]);
  });
});

it('a risk that is complete says nothing of draws that are alike', () => {
  const answer = riskAnswer(model, draws(0, 3 * BATCH), request);
  expect(answer.status).toBe('complete');
  expect(answer.areAlike).toBeUndefined();
});
