import { expect, test } from 'vitest';
import { answerOrder } from '../../src/host/answer-order.js';
import { LARGEST_FIGURE, SMALLEST_FIGURE } from '../../src/scenario/checks/magnitudes.js';
import { SMALL_WORKS } from '../report/small-works.js';

type Path = readonly (string | number)[];

const VALUES = [LARGEST_FIGURE, -LARGEST_FIGURE, SMALLEST_FIGURE, 1e308];

function numbersIn(value: unknown, path: Path = []): Path[] {
  if (typeof value === 'number') return [path];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => numbersIn(inner, [...path, key]));
}

function withNumber(document: unknown, path: Path, value: number): unknown {
  const copy = structuredClone(document) as Record<string | number, unknown>;
  const holder = path.slice(0, -1).reduce((at, key) => at[key] as Record<string | number, unknown>, copy);
  holder[path.at(-1)!] = value;
  return copy;
}

async function planOf(scenario: unknown): Promise<string> {
  const order = { question: 'plan', scenario, options: {}, engine: 'auto', seconds: 10 } as const;
  return (await answerOrder(order, { cancelled: () => false, onProgress: () => {} })).kind;
}

test('a plant is planned or its problems are told, whichever number is as extreme as can be: nothing is thrown', async () => {
  const kinds = new Set<string>();
  for (const path of numbersIn(SMALL_WORKS)) {
    for (const value of VALUES) {
      const kind = await planOf(withNumber(SMALL_WORKS, path, value)).catch((error: Error) => error.message);
      expect(kind, `${path.join('/')} ${value}`).toMatch(
        /^(answered|infeasible|problems|no certified answer)$/,
      );
      kinds.add(kind);
    }
  }
  expect([...kinds]).toEqual(expect.arrayContaining(['answered', 'problems']));
});
