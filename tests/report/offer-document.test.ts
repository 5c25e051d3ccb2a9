import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, expectTypeOf, it } from 'vitest';
import type { z } from 'zod';
import { answerOffer } from '../../src/host/answer-offer.js';
import { printReport } from '../../src/report/finance/question-report.js';
import type { OfferDocument } from '../../src/report/offer-document.js';
import { offerReport } from '../../src/report/offer-report.js';
import { offerJsonSchema, offerSchema } from '../../src/report/offer-schema.js';
import type { Contract, Scenario } from '../../src/scenario/schema/scenario.js';
import { shredOffer, signedInto } from '../analysis/offer/judged.js';
import { generateOffer } from '../generate/offer.js';
import { generateScenario } from '../generate/plant.js';
import { tinyScenario } from '../planning/tiny-plant.js';
import { solverFor } from '../solver/solver-for.js';

type Mutable<T> = T extends readonly (infer E)[]
  ? Mutable<E>[]
  : T extends object
    ? { -readonly [K in keyof T]: Mutable<T[K]> }
    : T;

const ajv = new Ajv2020({ strict: false });
const accepts = ajv.compile(offerJsonSchema());

async function documentOf(scenario: Scenario, offer: Contract, draws?: number): Promise<OfferDocument> {
  const reply = answerOffer(
    scenario,
    {
      source: { document: offer },
      parts: ['ladder', 'displaced', 'terms', 'calls'],
      margin: 0,
      counting: 'whole',
      volumes: [7],
      change: { paymentDays: 90 },
      ...(draws === undefined ? {} : { uncertain: { seed: 1, draws } }),
    },
    await solverFor('highs'),
  );
  if (reply.kind === 'problems') throw new Error(JSON.stringify(reply.problems));
  return reply.document;
}

describe('the document of an offer', () => {
  it('has the type of its schema', () => {
    expectTypeOf<Mutable<OfferDocument>>().toExtend<Mutable<z.infer<typeof offerSchema>>>();
  });

  it('is what its schema says, and no wider than 100 columns in print', async () => {
    for (let seed = 1; seed <= 4; seed++) {
      const scenario = generateScenario(seed, { months: 1, features: { uncertainty: seed < 3 } });
      const offer = generateOffer(seed, scenario);
      const document = await documentOf(scenario, offer, seed < 3 ? 6 : undefined);
      const json: unknown = JSON.parse(JSON.stringify(document));
      expect(offerSchema.safeParse(json).error?.issues ?? [], `seed ${seed}`).toEqual([]);
      expect(accepts(json), JSON.stringify(accepts.errors)).toBe(true);
      const text = printReport(offerReport(signedInto(scenario, offer).plant, document));
      expect(Math.max(...text.split('\n').map((line) => line.length))).toBeLessThanOrEqual(100);
    }
  });

  it('says what cannot be served, why, and what part of it can', async () => {
    const offer = shredOffer({ monthly: { min: 40, max: 40 } });
    const document = await documentOf(tinyScenario(), offer);
    const json: unknown = JSON.parse(JSON.stringify(document));
    expect(offerSchema.safeParse(json).error?.issues ?? []).toEqual([]);
    const text = printReport(offerReport(signedInto(tinyScenario(), offer).plant, document));
    expect(text).toContain('TAKE ONLY UP TO 32.0 tonne a month');
    expect(text).toContain('80.0 % can be served');
    expect(text).toMatch(/cannot all be kept; without any one of them the others can:\s.*shredder/s);
  });

  it('carries the margin that was asked for in its quotes', async () => {
    const document = await documentOf(tinyScenario(), shredOffer());
    if (document.status !== 'judged') throw new Error(document.status);
    expect(document.quote?.prices.map(({ volume }) => volume)).toEqual([7, 10]);
    for (const { price } of document.quote?.prices ?? []) expect(price).toBeCloseTo(30, 6);
    expect(document.terms.at(-1)?.change).toBe('as asked');
  });
});
