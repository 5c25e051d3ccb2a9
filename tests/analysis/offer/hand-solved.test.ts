import { describe, expect, it } from 'vitest';
import { gainUnderUncertainty } from '../../../src/analysis/offer/gain-under-uncertainty.js';
import { bestSet, type OfferSets } from '../../../src/analysis/offer/offer-sets.js';
import { drawFactors } from '../../../src/analysis/risk/draw-factors.js';
import { derivePlant } from '../../../src/plant/derive-plant.js';
import type { Contract, Scenario, Uncertainty } from '../../../src/scenario/schema/scenario.js';
import { tinyScenario } from '../../planning/tiny-plant.js';
import { solverFor } from '../../solver/solver-for.js';
import { EVERYTHING, judged, shredOffer, signedInto } from './judged.js';

/*
 * The tiny plant makes 32 t of shred, all sold to the kiln at 30, and 8 t of steel from 40 t of tires: what an
 * offer for shred takes, the kiln loses.
 */
const PLANT = tinyScenario();

describe('the price at which an offer breaks even', () => {
  it('is the price of the outlet that it takes from', async () => {
    const answer = await judged(PLANT, shredOffer());
    expect(answer.verdict.kind).toBe('take');
    expect(answer.gain?.presentValue).toBeCloseTo(200, 6);
    expect(answer.breakEven.price).toBeCloseTo(30, 9);
  });

  // Netback = price − all costs from the plant to the buyer (legalclarity.org, "What is netback value").
  it('has the netback of that outlet: freight and packing are added', async () => {
    const [kiln, scrap] = PLANT.outlets!;
    const scenario = { ...PLANT, outlets: [{ ...kiln, freight: 4 }, scrap] };
    const answer = await judged(scenario, shredOffer({ freight: 7, packing: 2 }));
    expect(answer.breakEven.price).toBeCloseTo(30 - 4 + 7 + 2, 9);
  });

  it('is higher by the interest until payment: 10 % for a year', async () => {
    const answer = await judged({ ...PLANT, discountRate: 0.1 }, shredOffer({ paymentDays: 365 }));
    expect(answer.breakEven.price).toBeCloseTo(33, 9);
  });

  it('is in the unit of the offer: 30 a tonne of 30 GJ is 1 by GJ', async () => {
    const answer = await judged(PLANT, shredOffer({ price: { amount: 2, per: 'GJ' } }));
    expect(answer.breakEven).toMatchObject({ kind: 'price', per: 'GJ', own: 2 });
    expect(answer.breakEven.price).toBeCloseTo(1, 9);
  });

  // P₀·[a + Σ b·I/I₀] with a 0.2, b 0.5 and 0.3, ratios 1.10 and 0.95 is P₀·1.035 (form of the US BLS "Price
  // Adjustment Guide for Contracting Parties"; figures ours): 0.8 of an index that stands at 104.375.
  it('is the base of an index formula: 30 / 1.035', async () => {
    const indices: Scenario['indices'] = [{ id: 'mixed', kind: 'points', base: 100, values: 104.375 }];
    const price = { base: 40, index: 'mixed', passThrough: 0.8 };
    const answer = await judged({ ...PLANT, indices }, shredOffer({ price }));
    expect(answer.breakEven.kind).toBe('base');
    expect(answer.breakEven.price).toBeCloseTo(30 / 1.035, 9);
  });

  it('is found from a price at which nothing is delivered, the flat part passed over', async () => {
    const optional = await judged(PLANT, shredOffer({ price: 12, monthly: { max: 10 } }));
    expect(optional.gain?.presentValue).toBeCloseTo(0, 9);
    expect(optional.verdict).toMatchObject({ kind: 'take only above', reasons: ['price'] });
    expect(optional.breakEven.price).toBeCloseTo(30, 9);
  });

  // Deliver-or-pay: the supplier pays shortfall × rate (infocomm.ky, "Take or pay: definition").
  it('pays for what cannot be delivered: 32·p − 8·10 = 32·30', async () => {
    const answer = await judged(
      PLANT,
      shredOffer({ price: 5, monthly: { min: 40, max: 40 }, shortfall: { charge: 10 } }),
    );
    expect(answer.gain?.presentValue).toBeCloseTo(-400, 6);
    expect(answer.breakEven.price).toBeCloseTo(32.5, 9);
  });

  it('leaves the margin that is asked for', async () => {
    const answer = await judged(PLANT, shredOffer(), { margin: 150 });
    expect(answer.breakEven.price).toBeCloseTo(45, 9);
    expect(answer.verdict.kind).toBe('take');
    expect((await judged(PLANT, shredOffer(), { margin: 250 })).verdict).toMatchObject({
      kind: 'take only above',
      above: expect.closeTo(55, 6) as number,
    });
  });
});

describe('floors and ceilings', () => {
  const indices: Scenario['indices'] = [{ id: 'rubber', kind: 'points', base: 100, values: 150 }];
  const scenario = { ...PLANT, indices };
  const formula = (limits: object) =>
    shredOffer({ price: { base: 30, index: 'rubber', ...limits } as Contract['price'] });

  it('a floor that pays leaves no break-even', async () => {
    const answer = await judged(scenario, formula({ floor: 35 }));
    expect(answer.breakEven).toMatchObject({ reason: 'floor' });
    expect(answer.verdict.kind).toBe('take');
  });

  it('a ceiling that does not pay leaves none either', async () => {
    const answer = await judged(scenario, formula({ ceiling: 25 }));
    expect(answer.breakEven).toMatchObject({ reason: 'ceiling' });
    expect(answer.verdict).toMatchObject({ kind: 'decline', reasons: ['ceiling'] });
  });

  it('between them the base is found: 20 · 1.5 = 30', async () => {
    const answer = await judged(scenario, formula({ floor: 15, ceiling: 60 }));
    expect(answer.breakEven.price).toBeCloseTo(20, 9);
  });
});

describe('several materials', () => {
  const two = shredOffer({
    materials: ['shred', 'steel'],
    price: { byMaterial: { shred: 33, steel: 90 } },
    monthly: { min: 10, max: 10 },
  });

  it('a common factor, and each price alone', async () => {
    const answer = await judged(PLANT, two);
    // All 10 t are shred: 33·f = 30. Shred alone: 30. Whatever the price of steel, 10 t of shred at 33 pay.
    expect(answer.breakEven).toMatchObject({ kind: 'factor', own: 1 });
    expect(answer.breakEven.price).toBeCloseTo(30 / 33, 9);
    expect(answer.alone[0]).toMatchObject({ material: 'shred' });
    expect(answer.alone[0].price).toBeCloseTo(30, 9);
    expect(answer.alone[1]).toMatchObject({ material: 'steel', reason: 'any price' });
  });
});

describe('what is said to the buyer', () => {
  it('a break-even at the price is too close to call', async () => {
    expect((await judged(PLANT, shredOffer({ price: 30 }))).verdict.kind).toBe('too close to call');
  });

  it('a break-even above what the buyer would pay is declined', async () => {
    const answer = await judged(PLANT, shredOffer({ price: 20 }), { priceLimit: 28 });
    expect(answer.verdict).toMatchObject({ kind: 'decline', reasons: ['price limit'] });
  });

  it('what cannot be served is taken up to what can, and said why', async () => {
    const offer = shredOffer({ monthly: { min: 40, max: 40 } });
    const answer = await judged(PLANT, offer, EVERYTHING);
    expect(answer.verdict).toMatchObject({ kind: 'take only up to', reasons: ['cannot be served'] });
    expect(answer.verdict.upTo).toBeCloseTo(32, 6);
    expect(answer.servedShare).toBeCloseTo(0.8, 9);
    const members = answer.conflict?.map(({ limit }) => limit.kind).sort();
    expect(members).toEqual(['contractMinimum', 'machineHours']);
    expect((await judged(PLANT, { ...offer, price: 20 }, EVERYTHING)).verdict.kind).toBe('decline');
  });

  it('an offer after the horizon is nothing', async () => {
    const answer = await judged(PLANT, shredOffer({ from: '2028-01-01', to: '2028-12-31' }));
    expect(answer.breakEven.reason).toBe('not in force');
  });
});

describe('the quote ladder', () => {
  const outlets: Scenario['outlets'] = [
    {
      id: 'kiln',
      material: 'shred',
      tiers: [
        { upTo: 12, price: 40 },
        { upTo: 32, price: 30 },
      ],
    },
    { id: 'scrap', material: 'steel', price: 100 },
  ];

  it('gives up the cheap tonnes first: 30 for 20 t, then 40 for 12 t, and no more than 32 t', async () => {
    const { quote } = await judged({ ...PLANT, outlets }, shredOffer(), EVERYTHING);
    const rungs = quote!.ladder.rungs.map(({ from, to, slope }) => [from, to, slope]);
    expect(rungs).toHaveLength(2);
    [
      [0, 20, 30],
      [20, 32, 40],
    ].forEach((rung, i) => {
      rung.forEach((figure, k) => {
        expect(rungs[i][k]).toBeCloseTo(figure, 6);
      });
    });
    expect(quote!.ladder.rungs[1].receiptsTo).toBeCloseTo(20 * 30 + 12 * 40, 6);
    const [{ kind, of }] = quote!.ladder.rungs[1].bottlenecks;
    expect({ kind, of }).toEqual({
      kind: 'nothing left',
      of: { kind: 'sell', outlet: 'kiln', tier: 1, month: 0 },
    });
  });

  it('takes its tonnes from the kiln and from nothing else', async () => {
    const { quote } = await judged({ ...PLANT, outlets }, shredOffer(), EVERYTHING);
    const { volumes, delivered, sources } = quote!.displaced;
    const rounded = (figures: readonly number[]) => figures.map((figure) => Math.round(figure * 1e6) / 1e6);
    expect(rounded(volumes)).toEqual([0, 20, 32]);
    expect(rounded(delivered)).toEqual([0, 20, 32]);
    expect(sources.map(({ kind, id, change }) => [kind, id, rounded(change)])).toEqual([
      ['sell', 'kiln', [0, -20, -32]],
    ]);
  });
});

describe('what a term is worth', () => {
  it('no minimum: what the minimum loses; half of it: half', async () => {
    const { terms } = await judged(PLANT, shredOffer({ price: 20 }), EVERYTHING);
    const worth = Object.fromEntries(terms.map((term) => [term.change, term.worth]));
    expect(worth['no monthly minimum']).toBeCloseTo(100, 6);
    expect(worth['half the monthly minimum']).toBeCloseTo(50, 6);
  });

  it('no maximum: 22 t more at 20 above the kiln', async () => {
    const { terms } = await judged(PLANT, shredOffer(), EVERYTHING);
    expect(terms.find(({ change }) => change === 'no monthly maximum')?.worth).toBeCloseTo(440, 6);
  });

  it('other terms as asked', async () => {
    const asked = shredOffer({ price: 52 });
    const { terms } = await judged(PLANT, shredOffer(), { ...EVERYTHING, asked });
    expect(terms.at(-1)).toMatchObject({ change: 'as asked' });
    expect(terms.at(-1)?.worth).toBeCloseTo(20, 6);
  });
});

it('a volume that the buyer calls is judged at the expected call, the minimum and the maximum', async () => {
  const call = { by: 'buyer' as const, expected: 10 };
  const answer = await judged(
    PLANT,
    shredOffer({ price: 28, monthly: { min: 5, max: 20 }, call }),
    EVERYTHING,
  );
  const gains = answer.calls.map((each) => each.gain as number);
  expect(answer.calls.map((each) => each.call)).toEqual(['expected', 'minimum', 'maximum']);
  [-20, -10, -40].forEach((gain, i) => {
    expect(gains[i]).toBeCloseTo(gain, 6);
  });
});

it('the bridge: what the buyer pays is new business, what the kiln loses is volume', async () => {
  const { displaced } = await judged(PLANT, shredOffer(), EVERYTHING);
  const amount = (effect: string) => displaced?.bridge.effects.find((each) => each.effect === effect)?.amount;
  expect(amount('new business')).toBeCloseTo(500, 6);
  expect(amount('volume')).toBeCloseTo(-300, 6);
  expect(displaced?.moves).toContainEqual({
    kind: 'sell',
    id: 'kiln',
    before: expect.closeTo(32, 6) as number,
    after: expect.closeTo(22, 6) as number,
  });
});

it('the bridge counts net prices, less freight and packing: 10·(50 − 7 − 2) won, 10·(30 − 4) given up', async () => {
  const [kiln, scrap] = PLANT.outlets!;
  const scenario = { ...PLANT, outlets: [{ ...kiln, freight: 4 }, scrap] };
  const { displaced } = await judged(scenario, shredOffer({ freight: 7, packing: 2 }), EVERYTHING);
  const effects = Object.fromEntries(displaced!.bridge.effects.map(({ effect, amount }) => [effect, amount]));
  expect(effects['new business']).toBeCloseTo(410, 6);
  expect(effects.volume).toBeCloseTo(-260, 6);
  for (const effect of ['price', 'yield', 'cost', 'lost business']) expect(effects[effect]).toBeCloseTo(0, 6);
});

describe('several offers', () => {
  const a = shredOffer({ id: 'a', price: 40, monthly: { min: 20, max: 20 } });
  const b = shredOffer({ id: 'b', price: 45, monthly: { min: 20, max: 20 } });
  const plant = derivePlant({ ...PLANT, contracts: [a, b] });
  const set = async (divisible: string[], allSetsUpTo?: number): Promise<OfferSets> => {
    const solver = await solverFor('highs');
    const answer = bestSet(
      plant,
      { offers: ['a', 'b'], divisible: new Set(divisible), allSetsUpTo, counting: 'whole' },
      solver,
    );
    if (answer.status !== 'chosen') throw new Error(answer.status);
    return answer;
  };

  it('32 t do not serve 20 and 20: the better one, and what leaving it out loses', async () => {
    for (const answer of [await set([]), await set([], 0)]) {
      expect(answer.best.offers).toEqual([{ offer: 'b', share: 1 }]);
      expect(answer.best.value - answer.none!).toBeCloseTo(300, 6);
      expect(answer.runnerUp?.offers).toEqual([{ offer: 'a', share: 1 }]);
      expect(answer.losses).toEqual([{ offer: 'b', loss: expect.closeTo(100, 6) as number }]);
      expect(answer.costs).toEqual([{ offer: 'a', cost: expect.closeTo(100, 6) as number }]);
    }
  });

  it('a share of the other where its buyer allows it: 12 of 20 t', async () => {
    const answer = await set(['a']);
    expect(answer.best.offers[0]).toEqual({ offer: 'a', share: expect.closeTo(0.6, 9) as number });
    expect(answer.best.value - answer.none!).toBeCloseTo(300 + 120, 6);
  });
});

it('under uncertain prices the gain is 10·(33 − kiln) in every draw, with the same draws for both plans', async () => {
  const target: Uncertainty = {
    target: '/outlets/kiln/price',
    distribution: { kind: 'lognormal', sigma: 0.2 },
  };
  const signed = signedInto({ ...PLANT, uncertainty: [target] }, shredOffer({ price: 33 }));
  const request = { seed: 7, draws: 60 };
  const answer = gainUnderUncertainty(signed, request, await solverFor('highs'));
  if (!('remade' in answer)) throw new Error(answer.status);
  const expected = drawFactors([target], 1, request.seed, request.draws).map(
    ([[factor]]) => 10 * (33 - 30 * factor),
  );
  answer.kept.gains.forEach((gain, draw) => {
    expect(gain).toBeCloseTo(expected[draw], 6);
  });
  expect(answer.kept.regret).toBe(expected.filter((gain) => gain < 0).length / 60);
  expect(answer.remade.distribution?.mean).toBeCloseTo(expected.reduce((sum, gain) => sum + gain, 0) / 60, 6);
});
