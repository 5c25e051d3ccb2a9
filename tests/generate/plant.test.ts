import { describe, expect, it } from 'vitest';
import { readPlant } from '../../src/plant/read-plant.js';
import type { Scenario } from '../../src/scenario/schema/scenario.js';
import { CONFLICTS, generateInfeasibleScenario } from './infeasible.js';
import { generateOffer } from './offer.js';
import { type GeneratorOptions, generateScenario } from './plant.js';

const SEEDS = Array.from({ length: 50 }, (_, index) => index + 1);

const KINDS: readonly [name: string, options: GeneratorOptions, count?: number][] = [
  ['small', {}],
  ['full', { size: 'full' }, 15],
  ['tight', { tight: true, features: { uncertainty: true } }],
  ['with whole numbers', { integers: true, months: 2 }],
  ['degenerate', { degenerate: true }],
  ['badly scaled, in short tons', { currencyScale: 1000, massUnit: 'short ton' }],
];

describe('generated plants', () => {
  it.each(KINDS)('pass the schema and the checks: %s', (_name, options, count = SEEDS.length) => {
    for (const seed of SEEDS.slice(0, count)) expectValid(generateScenario(seed, options), `seed ${seed}`);
  });

  it('come out the same from the same seed and differ from seed to seed', () => {
    const texts = SEEDS.map((seed) => JSON.stringify(generateScenario(seed, { size: 'full' })));
    const again = SEEDS.map((seed) => JSON.stringify(generateScenario(seed, { size: 'full' })));
    expect(again).toEqual(texts);
    expect(new Set(texts.map((text) => text.replace(/Generated plant \d+/, ''))).size).toBe(SEEDS.length);
  });

  it('state figures of at most four decimals', () => {
    for (const seed of SEEDS) {
      for (const figure of figuresIn(generateScenario(seed))) {
        expect(Math.abs(figure * 1e4 - Math.round(figure * 1e4)), `seed ${seed}: ${figure}`).toBeLessThan(
          1e-6,
        );
      }
    }
  });

  it('do not move when a feature that they do not have is left out', () => {
    const without = { stock: false, stores: false, contracts: false };
    for (const seed of SEEDS) {
      const full = generateScenario(seed, { features: { stock: true, contracts: true } });
      const less = generateScenario(seed, { features: without });
      expect([less.feeds, less.steps, less.outlets]).toEqual([full.feeds, full.steps, full.outlets]);
      expect([less.stores, less.contracts]).toEqual([[], []]);
    }
  });

  it('of the full size have about 5 feeds, 12 steps, 20 materials and 40 outlets', () => {
    const plants = SEEDS.map((seed) => generateScenario(seed, { size: 'full' }));
    const average = (count: (plant: Scenario) => number) =>
      plants.reduce((sum, plant) => sum + count(plant), 0) / plants.length;
    expect(average(({ feeds }) => feeds.length)).toBeCloseTo(5, -0.5);
    expect(average(({ steps }) => steps.length)).toBeCloseTo(12.5, -0.5);
    expect(average(({ materials }) => materials.length)).toBeCloseTo(19, -0.5);
    expect(average(({ outlets }) => outlets!.length)).toBeCloseTo(39, -0.9);
  });
});

describe('generated infeasible plants', () => {
  it.each(CONFLICTS)('pass the schema and the checks: %s', (conflict) => {
    for (const seed of SEEDS.slice(0, 4)) {
      expectValid(generateInfeasibleScenario(seed, conflict).scenario, `seed ${seed}`);
    }
  });
});

describe('generated offers', () => {
  it('pass the schema and the checks, as an offer and when signed', () => {
    for (const seed of SEEDS.slice(0, 25)) {
      const scenario = generateScenario(seed);
      const offer = generateOffer(seed, scenario);
      expectValid({ ...scenario, offers: [offer] }, `seed ${seed} as an offer`);
      expectValid({ ...scenario, contracts: [...scenario.contracts!, offer] }, `seed ${seed} signed`);
    }
  });
});

function expectValid(scenario: Scenario, message: string): void {
  const reading = readPlant(JSON.stringify(scenario));
  expect(reading.ok ? [] : reading.problems, message).toEqual([]);
}

function figuresIn(value: unknown): number[] {
  if (typeof value === 'number') return [value];
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(figuresIn) : [];
}
