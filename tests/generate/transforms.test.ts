import { describe, expect, it } from 'vitest';
import { readPlant } from '../../src/plant/read-plant.js';
import type { Scenario } from '../../src/scenario/schema/scenario.js';
import { raisedLimits } from './more-capacity.js';
import { generateScenario } from './plant.js';
import { inOtherMassUnit } from './plant-in-other-unit.js';
import { withListsShuffled, withMoneyScaled, withUnusedOption } from './transforms.js';
import { UNUSED_OPTIONS } from './unused-option.js';

const PLANTS = Array.from({ length: 10 }, (_, index) =>
  generateScenario(index + 1, { size: index % 2 === 0 ? 'small' : 'full', months: 2 }),
);

describe('a plant in the other mass unit', () => {
  it('has its old figures again when rewritten twice', () => {
    for (const plant of PLANTS) {
      const twice = inOtherMassUnit(inOtherMassUnit(plant));
      expect(worstDifference(twice, plant)).toBeLessThan(1e-12);
      expect(worstDifference(inOtherMassUnit(plant), plant)).toBeGreaterThan(0.05);
    }
  });

  it('keeps its rates with a basis and turns 1 t into 1.10231 short tons', () => {
    const plant = generateScenario(1, { features: { stock: true, otherBases: true } });
    const other = inOtherMassUnit(plant);
    const available = plant.feeds[0]!.available as number;
    // 1000 / 907.18474: 1 lb = 0.45359237 kg and 1 short ton = 2000 lb exactly (NIST SP 811).
    expect((other.feeds[0]!.available as number) / available).toBeCloseTo(1.10231131, 8);
    expect((other.steps[0]!.energy as number) / (plant.steps[0]!.energy as number)).toBeCloseTo(
      0.90718474,
      10,
    );
    expect(ratesWithBasis(other)).toEqual(ratesWithBasis(plant));
    expect(ratesWithBasis(plant).length).toBeGreaterThan(0);
  });
});

describe('the transforms', () => {
  it('scale money back and forth without a trace', () => {
    for (const plant of PLANTS) {
      const doubled = withMoneyScaled(plant, 2);
      expect(doubled).not.toEqual(plant);
      expect(withMoneyScaled(doubled, 0.5)).toEqual(plant);
    }
  });

  it('shuffle without loss', () => {
    for (const [seed, plant] of PLANTS.entries()) {
      const shuffled = withListsShuffled(plant, seed);
      expect(JSON.stringify(shuffled)).not.toBe(JSON.stringify(plant));
      expect(sorted(shuffled)).toEqual(sorted(plant));
      expectParsed(shuffled);
    }
  });

  it.each(UNUSED_OPTIONS)('leave a valid plant: %s', (option) => {
    for (const [seed, plant] of PLANTS.slice(0, 4).entries()) {
      const more = withUnusedOption(plant, seed, option);
      expect(more).not.toEqual(plant);
      expectParsed(more);
    }
  });

  it('raise every limit by itself and leave a valid plant', () => {
    for (const plant of PLANTS.slice(0, 1)) {
      const raised = raisedLimits(plant, 1.25);
      expect(raised.length).toBeGreaterThan(5);
      for (const { scenario, pointer } of raised) {
        expect(scenario, pointer).not.toEqual(plant);
        expectParsed(scenario);
      }
    }
  });
});

function expectParsed(scenario: Scenario): void {
  const reading = readPlant(JSON.stringify(scenario));
  expect(reading.ok ? [] : reading.problems).toEqual([]);
}

/** The largest relative difference between figures; infinite where anything else differs. */
function worstDifference(a: unknown, b: unknown): number {
  if (typeof a === 'number' && typeof b === 'number') return a === b ? 0 : Math.abs(a / b - 1);
  if (!isRecord(a) || !isRecord(b)) return a === b ? 0 : Number.POSITIVE_INFINITY;
  if (Object.keys(a).join() !== Object.keys(b).join()) return Number.POSITIVE_INFINITY;
  return Math.max(0, ...Object.keys(a).map((key) => worstDifference(a[key], b[key])));
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null;
}

function ratesWithBasis(value: unknown): unknown[] {
  if (typeof value !== 'object' || value === null) return [];
  return 'amount' in value ? [value] : Object.values(value).flatMap(ratesWithBasis);
}

/** Lists by their text: what is left when order means nothing. */
function sorted(value: unknown): unknown {
  if (Array.isArray(value)) {
    return value.map(sorted).sort((a, b) => (JSON.stringify(a) < JSON.stringify(b) ? -1 : 1));
  }
  if (typeof value !== 'object' || value === null) return value;
  const entries = Object.entries(value).map(([key, entry]) => [key, sorted(entry)] as const);
  return Object.fromEntries(entries.sort(([a], [b]) => (a < b ? -1 : 1)));
}
