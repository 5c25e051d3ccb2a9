import { describe, expect, it } from 'vitest';
import { obviousConflicts } from '../../src/analysis/conflict/obvious.js';
import { derivePlant } from '../../src/plant/derive-plant.js';
import type { Plant } from '../../src/plant/plant.js';
import { type Conflict, generateInfeasibleScenario } from '../generate/infeasible.js';

const SEEDS = Array.from({ length: 20 }, (_, index) => index + 1);

const NAMED: readonly (readonly [Conflict, string])[] = [
  ['hard minimum above the supply', 'minimum above capacity'],
  ['call of a buyer above the supply', 'minimum above capacity'],
  ['committed feed above the hours', 'committed above machines and room'],
  ['no hours in the month', 'committed above machines and room'],
];

describe('conflicts that sums alone show', () => {
  it.each(NAMED)('%s is named: %s', (planted, kind) => {
    for (const seed of SEEDS) {
      const plant = derivePlant(generateInfeasibleScenario(seed, planted).scenario);
      expect(
        obviousConflicts(plant).map((each) => each.kind),
        `seed ${seed}`,
      ).toContain(kind);
    }
  });

  it('waste is named where its disposals, outlets and room are gone', () => {
    const { scenario } = generateInfeasibleScenario(1, 'waste above the disposal limit');
    const plant = derivePlant(scenario);
    const closed = {
      ...plant,
      disposals: plant.disposals.map((each) => ({ ...each, limit: each.limit.map(() => 0) })),
    };
    expect(obviousConflicts(closed).map((each) => each.kind)).toContain('waste without room');
  });

  it('what is asked may come up to what is possible, and no further', () => {
    const plant = derivePlant(generateInfeasibleScenario(3, 'hard minimum above the supply').scenario);
    const [found] = obviousConflicts(plant);
    if (found?.kind !== 'minimum above capacity') throw new Error('none found');
    expect(obviousConflicts(withMinimum(plant, found.atMost * 0.9999))).toEqual([]);
    expect(obviousConflicts(withMinimum(plant, found.atMost * 1.0001))).not.toEqual([]);
  });
});

function withMinimum(plant: Plant, min: number): Plant {
  return {
    ...plant,
    contracts: plant.contracts.map((contract) => ({
      ...contract,
      monthlyMin: contract.monthlyMin.map((_, month) => (month === 0 ? min : 0)),
    })),
  };
}
