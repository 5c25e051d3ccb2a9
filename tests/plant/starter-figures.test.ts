import { describe, expect, test } from 'vitest';
import { closes } from '../../src/plant/assay.js';
import { readPlantDocument } from '../../src/plant/read-plant.js';
import {
  SIZE_CLASSES,
  STARTER_ASSAYS,
  STARTER_FIGURES,
  STARTER_HEATING_VALUES,
  STARTER_TIRE_MASSES,
} from '../../src/quantity/starter-figures.js';
import { EXAMPLE } from './example-scenario.js';

const KILOGRAMS_PER_POUND = 0.45359237;
const MEGAJOULES_PER_KILOGRAM_BY_BTU_PER_POUND = 0.002326;
const KILOJOULES_PER_KILOCALORIE = 4.1868;

function published(list: readonly { readonly id: string; readonly value: number }[], id: string): number {
  return list.find((figure) => figure.id === id)!.value;
}

describe('published figures', () => {
  test('each composition is whole, of rubber, steel, fiber and dirt', () => {
    for (const { value } of STARTER_ASSAYS) {
      expect(Object.keys(value)).toEqual(['rubber', 'steel', 'fiber', 'dirt']);
      expect(closes(value)).toBe(true);
    }
  });

  test('steel of car tires is inside the published 10 to 20 %, of truck tires at most 25 % (Kolendo et al., Applied Sciences 14(24) 11667, 2024; Aliapur wiki)', () => {
    for (const { id, value } of STARTER_ASSAYS) {
      const steel = value.steel!;
      expect(steel).toBeGreaterThanOrEqual(0.1);
      expect(steel).toBeLessThanOrEqual(id.startsWith('truck') ? 0.25 : 0.2);
    }
  });

  test('masses of tires are the published pounds', () => {
    const pounds = {
      'scrap-car-tire': 20,
      'scrap-truck-tire': 100,
      'new-car-tire': 25,
      'new-truck-tire': 120,
      'scrap-light-tire-2009': 22.5,
    };
    for (const [id, count] of Object.entries(pounds)) {
      expect(published(STARTER_TIRE_MASSES, id)).toBeCloseTo(count * KILOGRAMS_PER_POUND, 12);
    }
    expect(STARTER_TIRE_MASSES).toHaveLength(Object.keys(pounds).length);
  });

  test('heating values are the published Btu a pound and kcal a kilogram', () => {
    const btu = { 'tire-fuel-low': 12_000, 'tire-fuel-high': 16_000, 'tire-rubber': 15_000 };
    for (const [id, perPound] of Object.entries(btu)) {
      expect(published(STARTER_HEATING_VALUES, id)).toBeCloseTo(
        perPound * MEGAJOULES_PER_KILOGRAM_BY_BTU_PER_POUND,
        10,
      );
    }
    expect(published(STARTER_HEATING_VALUES, 'whole-tires-spain')).toBeCloseTo(
      (7500 * KILOJOULES_PER_KILOCALORIE) / 1000,
      10,
    );
  });

  test('each names its source, and an id stands once', () => {
    for (const list of Object.values(STARTER_FIGURES)) {
      expect(list.every(({ source }) => source.length > 10)).toBe(true);
      expect(new Set(list.map(({ id }) => id)).size).toBe(list.length);
    }
  });

  test('size classes in mm as printed (PAS 107:2007, Table 5)', () => {
    expect(SIZE_CLASSES.map(({ over, under }) => [over, under])).toEqual([
      [300, undefined],
      [50, 300],
      [10, 50],
      [1, 10],
      [0, 1],
      [0, 0.5],
    ]);
  });
});

test('a scenario may refer to them, and the plant names what it took', () => {
  const [tires, ...others] = EXAMPLE.materials;
  const reading = readPlantDocument({
    ...EXAMPLE,
    materials: [
      {
        ...tires,
        tireMass: { from: 'scrap-car-tire' },
        heatingValue: { from: 'whole-tires-spain' },
        assay: { from: 'car-tires-example' },
      },
      ...others,
    ],
  });
  if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
  const material = reading.plant.materials.find(({ id }) => id === 'car-tires')!;
  expect(material).toMatchObject({
    tireMass: 9.0718474,
    heatingValue: 31.401,
    assay: { steel: 0.15, fiber: 0.1 },
  });
  // 1.9 for a tire of 20 lb.
  expect(reading.plant.feeds[0]!.fee[0]).toBeCloseTo(1900 / 9.0718474, 10);
  expect(reading.plant.starterFigures).toEqual([
    expect.objectContaining({
      material: 'car-tires',
      field: 'assay',
      id: 'car-tires-example',
      status: 'invented',
    }),
    expect.objectContaining({
      material: 'car-tires',
      field: 'tireMass',
      id: 'scrap-car-tire',
      status: 'read',
    }),
    expect.objectContaining({
      material: 'car-tires',
      field: 'heatingValue',
      id: 'whole-tires-spain',
      status: 'read',
    }),
  ]);
});
