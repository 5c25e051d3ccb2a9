import { readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { beforeAll, describe, expect, expectTypeOf, test } from 'vitest';
import type * as z from 'zod';
import { withoutInfinities } from '../../src/report/finite.js';
import type { PlanDocument, PlannedDocument } from '../../src/report/plan-document.js';
import { planJsonSchema, type planSchema } from '../../src/report/plan-schema.js';
import { documentOf, plannedDocumentOf, SHIFT_WORKS, SMALL_WORKS } from './small-works.js';

type Mutable<T> = T extends readonly (infer E)[]
  ? Mutable<E>[]
  : T extends object
    ? { -readonly [K in keyof T]: Mutable<T[K]> }
    : T;

let small: PlannedDocument;
let shifts: PlannedDocument;
let infeasible: PlanDocument;

beforeAll(async () => {
  small = await plannedDocumentOf(SMALL_WORKS);
  shifts = await plannedDocumentOf(SHIFT_WORKS);
  // More committed than the yard and the crew's hours can take.
  infeasible = await documentOf({
    ...SMALL_WORKS,
    feeds: [{ ...SMALL_WORKS.feeds[0], committed: 5000, available: 5000 }],
  });
});

test('the type of the document is the type of its schema', () => {
  expectTypeOf<Mutable<PlanDocument>>().toEqualTypeOf<Mutable<z.infer<typeof planSchema>>>();
});

describe("the plan's document", () => {
  const valid = new Ajv2020({ strict: true, allErrors: true }).compile(planJsonSchema());
  const errorsOf = (document: unknown) => {
    valid(JSON.parse(JSON.stringify(document)));
    return valid.errors;
  };

  test('keeps to its JSON Schema, by ajv', async () => {
    const file = new URL('../../scenarios/one-month.json', import.meta.url);
    const shipped = await documentOf(JSON.parse(readFileSync(file, 'utf8')));
    for (const document of [small, shifts, shipped, infeasible]) expect(errorsOf(document)).toBeNull();
    expect(errorsOf({ ...infeasible, status: 'no certified answer', attempts: [] })).toBeNull();
  });

  test('would be refused with a key that the schema has not, or without one that it has', () => {
    const { margin, ...without } = small;
    expect(margin).toBeTypeOf('number');
    expect(errorsOf(without)).not.toBeNull();
    expect(errorsOf({ ...small, extra: 1 })).not.toBeNull();
  });

  test('survives JSON: what is read back is what was written', () => {
    for (const document of [small, shifts, infeasible]) {
      expect(JSON.parse(JSON.stringify(document))).toEqual(JSON.parse(JSON.stringify(document, noNulls)));
    }
  });

  test('every figure of the schema says its unit', () => {
    const text = JSON.stringify(planJsonSchema());
    expect(text).toContain('Currency per mass unit');
    expect(text).toContain('kWh');
  });

  test('an infeasible scenario has a status and reasons, and no plan', () => {
    expect(infeasible.status).toBe('infeasible');
    expect('reasons' in infeasible && infeasible.reasons.length).toBeGreaterThan(0);
    expect('months' in infeasible).toBe(false);
  });

  test('the margin by mass is the margin over what was received', () => {
    const received = small.months
      .flatMap((month) => month.receipts)
      .reduce((sum, each) => sum + each.mass, 0);
    expect(small.total.received).toBeCloseTo(received, 9);
    expect(small.marginByMass).toBeCloseTo(small.margin / received, 9);
  });

  test('totals are the sums of the months', () => {
    const { total, months } = small;
    for (const crew of total.crews) {
      const hours = months.flatMap((month) => month.crews).filter((each) => each.crew === crew.crew);
      expect(crew.hours).toBeCloseTo(
        hours.reduce((sum, each) => sum + each.hours, 0),
        9,
      );
    }
    for (const outlet of total.sales) {
      const sold = months.flatMap((month) => month.sales).filter((each) => each.outlet === outlet.outlet);
      expect(outlet.mass).toBeCloseTo(
        sold.reduce((sum, each) => sum + each.mass, 0),
        9,
      );
    }
    const mats = months.flatMap((month) => month.contracts).filter((each) => each.contract === 'mats');
    expect(mats).toHaveLength(2);
    expect(total.contracts.find((each) => each.contract === 'mats')!.min).toBeCloseTo(60, 9);
  });

  test('whole shifts carry the gap to the proved bound', () => {
    expect(shifts.wholeNumbers!.provedBound!).toBeGreaterThanOrEqual(shifts.presentValue - 1e-6);
    expect(small.wholeNumbers).toBeUndefined();
  });
});

describe('figures without end', () => {
  test('are left out, a missing limit is absent', () => {
    expect(
      withoutInfinities({ a: Number.POSITIVE_INFINITY, b: [{ c: -Number.POSITIVE_INFINITY, d: 1 }] }),
    ).toEqual({
      b: [{ d: 1 }],
    });
  });

  test('in a list, or no figure at all, are defects', () => {
    expect(() => withoutInfinities({ a: [Number.POSITIVE_INFINITY] })).toThrow('/a/0');
    expect(() => withoutInfinities({ a: { b: Number.NaN } })).toThrow('/a/b');
  });
});

/** JSON writes a figure without end as null: none may be left to become one. */
function noNulls(key: string, value: unknown): unknown {
  if (value === null || (typeof value === 'number' && !Number.isFinite(value))) throw new Error(key);
  return value;
}
