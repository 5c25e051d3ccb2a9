import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { PLANT_CHECKS } from '../../src/plant/plant-checks.js';
import { checkDocument, parseScenario } from '../../src/scenario/parse.js';
import { resolvePointer } from '../../src/scenario/pointer.js';
import type { Scenario } from '../../src/scenario/schema/scenario.js';
import { edited } from './edited.js';
import { sampleScenario } from './sample.js';

const SEED = 20270101;

describe('whatever is given', () => {
  test('is answered, never thrown at', () => {
    fc.assert(
      fc.property(
        fc.anything({ withBigInt: true, withDate: true, withMap: true, withNullPrototype: true }),
        (value) => {
          expect(checkDocument(value, PLANT_CHECKS).ok).toBe(false);
        },
      ),
      { seed: SEED, numRuns: 100 },
    );
    fc.assert(
      fc.property(fc.oneof(fc.json(), fc.string()), (text) => {
        expect(parseScenario(text).ok).toBe(false);
      }),
      { seed: SEED, numRuns: 100 },
    );
  });
});

describe('a scenario with one node deleted, renamed or of another type', () => {
  const mutation = fc.record({
    at: fc.nat(),
    change: fc.oneof(
      fc.constant({ kind: 'delete' as const }),
      fc.constant({ kind: 'rename' as const }),
      fc.record({
        kind: fc.constant('replace' as const),
        value: fc.oneof(
          fc.jsonValue({ maxDepth: 1 }),
          fc.constantFrom(-1, 0, 1, 'day', 'dust', '2027-02', [], {}),
        ),
      }),
    ),
  });

  test('is answered, and where it is right it means what it says', () => {
    fc.assert(
      fc.property(mutation, ({ at, change }) => {
        const document = mutated(at, change);
        const written: unknown = structuredClone(document);
        const checked = checkDocument(document, PLANT_CHECKS);
        expect(document).toEqual(written);
        if (checked.ok) expect(checked.scenario).toEqual(document);
        else expect(checked.problems.length).toBeGreaterThan(0);
      }),
      { seed: SEED, numRuns: 120 },
    );
  });

  test('has problems that stand in the document, each said in two sentences', () => {
    fc.assert(
      fc.property(mutation, ({ at, change }) => {
        const document = mutated(at, change);
        const checked = checkDocument(document, PLANT_CHECKS);
        for (const { pointer, code, message, remedy } of checked.ok ? [] : checked.problems) {
          const around =
            code === 'missing' || code === 'unknown format' ? pointer.replace(/\/[^/]*$/, '') : pointer;
          expect(resolvePointer(document, around), `${pointer}: ${message}`).toBeDefined();
          expect(message).toMatch(/^.+: .+\.$/s);
          expect(remedy).toMatch(/[.?]$/);
        }
      }),
      { seed: SEED, numRuns: 80 },
    );
  });
});

describe('the order of the lists', () => {
  test('changes nothing in what is right', () => {
    expect(checkDocument(reversed(sampleScenario())).ok).toBe(true);
  });

  test('does not change the set of what is wrong', () => {
    const document = edited({
      '/outlets/0/tiers/1/price': 230,
      '/feeds/0/material': 'car-tyres',
      '/steps/4/yields/shares/powder': 0.9,
      '/contracts/0/monthly/min': 900,
      '/machines/0/site': 'north',
      '/operation/windows/1/from': '21:30',
      '/materials/11': { id: 'ash', form: 'other' },
    }) as Scenario;
    expect(codesIn(reversed(document))).toEqual(codesIn(document));
    expect(codesIn(document).length).toBe(7);
  });
});

type Change = { readonly kind: 'delete' | 'rename' } | { readonly kind: 'replace'; readonly value: unknown };

function mutated(at: number, change: Change): unknown {
  const document: unknown = sampleScenario();
  const places = placesIn(document);
  const { parent, key } = places[at % places.length];
  const holder = parent as Record<string | number, unknown>;
  if (change.kind === 'replace') holder[key] = change.value;
  else if (Array.isArray(parent)) parent.splice(Number(key), 1);
  else {
    if (change.kind === 'rename') holder[`${key}x`] = holder[key];
    delete holder[key];
  }
  return document;
}

function placesIn(value: unknown): { parent: object; key: string | number }[] {
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => [{ parent: value, key }, ...placesIn(inner)]);
}

/** The same document with the lists whose order says nothing the other way round. */
function reversed(scenario: Scenario): unknown {
  const lists = Object.entries(scenario).map(([key, value]) => [
    key,
    Array.isArray(value) && key !== 'uncertainty' ? value.toReversed() : value,
  ]);
  const { operation } = scenario;
  const turned = { ...operation, windows: operation.windows.toReversed() };
  return { ...Object.fromEntries(lists), operation: turned };
}

function codesIn(document: unknown): string[] {
  const checked = checkDocument(document);
  return checked.ok ? [] : checked.problems.map(({ code }) => code).sort();
}
