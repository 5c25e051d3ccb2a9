import { describe, expect, it } from 'vitest';
import { scenarioSchema } from '../../src/scenario/schema/scenario.js';
import { generateScenario } from './plant.js';

const SEEDS = Array.from({ length: 300 }, (_, index) => index + 1);

describe('generated plants', () => {
  it.each(['small', 'full'] as const)('parse by the schema: %s', (size) => {
    for (const seed of SEEDS) {
      const parsed = scenarioSchema.safeParse(generateScenario(seed, { size }));
      expect(parsed.error?.issues ?? [], `seed ${seed}`).toEqual([]);
    }
  });
});
