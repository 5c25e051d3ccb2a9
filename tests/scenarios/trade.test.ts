import { describe, expect, it } from 'vitest';
import { derivePlant } from '../../src/plant/derive-plant.js';
import type { Plant } from '../../src/plant/plant.js';
import { readSieve } from '../../src/quantity/sieve.js';
import type { Scenario } from '../../src/scenario/schema/scenario.js';
import { SHIPPED, shippedScenario } from './shipped.js';

const MM_PER_INCH = 25.4;

/** mm, of arithmetic: 1 3/4 in is 44.45 mm. */
const ROUNDING = 1e-9;

describe.each(SHIPPED)('%s: facts of the trade (common practice, no source)', (name) => {
  const scenario = shippedScenario(name);
  const plant = derivePlant(scenario);

  it('clean steel has less than 5 % contamination by mass', () => {
    const steel = sold(plant, 'steel');
    expect(steel.length).toBeGreaterThan(0);
    for (const id of steel) {
      const { assay } = plant.materials.find((material) => material.id === id)!;
      expect(1 - assay.steel).toBeLessThan(0.05);
    }
  });

  it('wire-free rubber lies between 5/8 and 1 3/4 inch', () => {
    expectSizes(scenario, sold(plant, 'wire-free'), (5 / 8) * MM_PER_INCH, 1.75 * MM_PER_INCH);
  });

  it('granulate lies between 1 and 8 mm', () => {
    expectSizes(scenario, sold(plant, 'granulate'), 1, 8);
  });

  it('mills are fed 3/8 inch and smaller', () => {
    const feeds = scenario.steps.filter(({ machine }) => machine === 'mill').map(({ input }) => input);
    expectSizes(scenario, [...new Set(feeds)], 0, (3 / 8) * MM_PER_INCH);
  });

  it('powder lies between 20 and 80 mesh', () => {
    expectSizes(scenario, sold(plant, 'powder'), openingOf('No. 80'), openingOf('No. 20'));
  });
});

describe.each(SHIPPED)('%s: published ranges', (name) => {
  const plant = derivePlant(shippedScenario(name));

  // Aliapur wiki (CC BY 4.0), page on metallic wire: residual rubber 2 to 20 % by mass.
  it('wire from the rasper has 2 to 20 % rubber on it', () => {
    const [wire] = plant.materials.filter(({ id }) => id === 'raw-wire' || id === 'wire');
    expect(wire.assay.rubber).toBeGreaterThanOrEqual(0.02);
    expect(wire.assay.rubber).toBeLessThanOrEqual(0.2);
  });

  // FHWA-RD-97-148 (1998): 60 to 65 % recoverable; CalRecycle contractor report (2013): 70 % crumb yield.
  it('60 to 72 % of a car tire can become granulate', () => {
    const [tires] = plant.feeds.map(({ material }) => material).filter((id) => id !== 'truck-tires');
    const share = granulateFrom(plant, tires);
    expect(share).toBeGreaterThanOrEqual(0.6);
    expect(share).toBeLessThanOrEqual(0.72);
  });

  // Pollution Prevention Infohouse, fact sheet on tire-derived fuel: 12,000 to 16,000 Btu/lb.
  it('fuel sold by its heat has 26 to 37.2 MJ/kg', () => {
    const fuels = plant.materials.filter(
      ({ form, heatingValue }) => form === 'chip' && heatingValue !== undefined,
    );
    expect(fuels.length).toBeGreaterThan(0);
    for (const { heatingValue } of fuels) {
      // Truck shred with its wire is below the fact sheet's range: 26.4 MJ/kg, Aliapur wiki, page on shred (2009).
      expect(heatingValue).toBeGreaterThanOrEqual(26.4);
      expect(heatingValue).toBeLessThanOrEqual(37.216);
    }
  });
});

// Caltrans special provisions for rubber asphalt: wire at most 0.01 %, fabric at most 0.05 % by mass.
it.each(['one-month', 'twelve-months'] as const)(
  '%s: granulate is as pure as rubber for asphalt must be',
  (name) => {
    const plant = derivePlant(shippedScenario(name));
    for (const id of sold(plant, 'granulate')) {
      const { assay } = plant.materials.find((material) => material.id === id)!;
      expect(assay.steel).toBeLessThanOrEqual(0.0001);
      expect(assay.fiber).toBeLessThanOrEqual(0.0005);
    }
  },
);

/** Materials of a form that an outlet or a contract takes. */
function sold({ outlets, contracts, materials }: Plant, form: string): string[] {
  const taken = new Set([
    ...outlets.map(({ material }) => material),
    ...contracts.flatMap((each) => each.materials),
  ]);
  return materials.filter((material) => material.form === form && taken.has(material.id)).map(({ id }) => id);
}

function expectSizes(scenario: Scenario, materials: readonly string[], low: number, high: number): void {
  expect(materials.length).toBeGreaterThan(0);
  for (const material of materials) {
    const sizes = sizesOf(scenario, material);
    expect(sizes.length, `${material} is made on a screen`).toBeGreaterThan(0);
    for (const { over, under } of sizes) {
      expect(over).toBeGreaterThanOrEqual(low - ROUNDING);
      expect(under).toBeLessThanOrEqual(high + ROUNDING);
    }
  }
}

/** From which to which opening, mm, each screen that makes the material cuts it out. */
function sizesOf({ steps }: Scenario, material: string): { over: number; under: number }[] {
  return steps.flatMap(({ yields }) => {
    if (!('sizing' in yields)) return [];
    const { decks, under } = yields.sizing;
    const openings = decks.map(({ opening }) => openingOf(opening));
    const between = decks.map(({ over }, i) => ({
      over,
      low: openings[i],
      high: openings[i - 1] ?? Infinity,
    }));
    const all = [...between, { over: under, low: 0, high: openings.at(-1) ?? Infinity }];
    return all.flatMap(({ over, low, high }) => (over === material ? [{ over: low, under: high }] : []));
  });
}

function openingOf(designation: number | string): number {
  const reading = readSieve(designation);
  if (reading.kind === 'unknown') throw new Error(`${designation}`);
  return reading.opening;
}

/** Mass of granulate (before or after sifting) that a mass of tires makes when all of it goes that way, first pass. */
function granulateFrom({ steps, materials }: Plant, input: string): number {
  const form = materials.find(({ id }) => id === input)?.form;
  if (form === 'granulate' || form === 'other') return 1;
  const [step] = steps.filter((each) => each.input === input && each.machine !== 'chipper');
  const rubber = ['shred', 'chip', 'wire-free', 'granulate', 'other'];
  return (step?.yields ?? [])
    .filter(({ material }) => rubber.includes(materials.find(({ id }) => id === material)?.form ?? ''))
    .reduce(
      (sum, { material, share }) => sum + share * granulateFrom(plantOf({ steps, materials }), material),
      0,
    );
}

function plantOf(parts: Pick<Plant, 'steps' | 'materials'>): Plant {
  return parts as Plant;
}
