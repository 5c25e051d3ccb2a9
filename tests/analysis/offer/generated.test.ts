import { describe, expect, it } from 'vitest';
import { planMonths } from '../../../src/analysis/monthly-plan.js';
import type { BreakEvenAnswer, JudgedOffer } from '../../../src/analysis/offer/offer-answer.js';
import { bestSet } from '../../../src/analysis/offer/offer-sets.js';
import { priceFor } from '../../../src/analysis/offer/quote.js';
import { type QuoteLadder, receiptsAt } from '../../../src/analysis/offer/quote-ladder.js';
import { formulate } from '../../../src/planning/formulate.js';
import { derivePlant } from '../../../src/plant/derive-plant.js';
import type { PlantContract } from '../../../src/plant/plant.js';
import type { Contract, Scenario } from '../../../src/scenario/schema/scenario.js';
import { generateOffer } from '../../generate/offer.js';
import { generateScenario } from '../../generate/plant.js';
import { seededRandom } from '../../generate/random.js';
import { solverFor } from '../../solver/solver-for.js';
import { EVERYTHING, judged } from './judged.js';

const CASES = 200;

function caseOf(seed: number): { scenario: Scenario; offer: Contract } {
  const scenario = generateScenario(seed, { months: 1 + (seed % 2), degenerate: seed % 5 === 0 });
  return { scenario, offer: generateOffer(seed, scenario) };
}

/** The best plan's present value and scale, solved from cold; undefined where there is none. */
async function freshValue(scenario: Scenario, contracts: readonly Contract[]) {
  const all = [...(scenario.contracts ?? []), ...contracts];
  const plant = derivePlant({ ...scenario, contracts: all });
  const solver = await solverFor('auto');
  if (all.every(({ term }) => term === undefined)) {
    const answer = solver.solve(formulate(plant).program);
    if (answer.kind !== 'solved') return undefined;
    return { value: answer.certificate.objective, scale: answer.certificate.scale };
  }
  // Months may have to be told apart by whole numbers.
  const answer = planMonths(plant, solver);
  if (!('plan' in answer)) return undefined;
  const { presentValue, scale } = answer.plan.statement;
  return { value: presentValue, scale };
}

/** The offer at another price, by hand: an amount in place of its own, or all amounts times a factor. */
function priced(offer: Contract, { kind }: BreakEvenAnswer, value: number): Contract {
  const change = (figure: unknown): unknown => {
    if (typeof figure === 'number') return kind === 'factor' ? figure * value : value;
    if (Array.isArray(figure)) return figure.map(change);
    const record = figure as Record<string, unknown>;
    const key = ['amount', 'base', 'byMaterial', 'values'].find((each) => each in record);
    if (key === undefined)
      return Object.fromEntries(Object.entries(record).map(([id, each]) => [id, change(each)]));
    return { ...record, [key]: change(record[key]) };
  };
  return { ...offer, price: change(offer.price) as Contract['price'] };
}

describe(`${CASES} generated plants and offers`, () => {
  const found: string[] = [];

  it('gain just above the break-even, and not just below it', async () => {
    for (let seed = 1; seed <= CASES; seed++) {
      const { scenario, offer } = caseOf(seed);
      const { breakEven } = await judged(scenario, offer);
      const { price } = breakEven;
      if (price === undefined) continue;
      found.push(`seed ${seed}`);
      // 0.01 by mass unit in the unit of the offer: what one unit of its price is by mass unit.
      const perMass = Math.max(...pricesByMass(scenario, priced(offer, breakEven, 1)));
      const step = Math.max(0.01 / Math.abs(perMass), 1e-4 * Math.abs(price));
      const without = (await freshValue(scenario, []))!;
      const above = (await freshValue(scenario, [priced(offer, breakEven, price + step)]))!;
      const below = (await freshValue(scenario, [priced(offer, breakEven, price - step)]))!;
      const rounding = 1e-8 * Math.max(without.scale, above.scale);
      expect(above.value - without.value, `seed ${seed} above ${price}`).toBeGreaterThan(0);
      expect(below.value - without.value, `seed ${seed} below ${price}`).toBeLessThanOrEqual(rounding);
    }
    expect(found.length).toBeGreaterThan(0.75 * CASES);
  }, 120_000);
});

function pricesByMass(scenario: Scenario, offer: Contract): readonly number[] {
  const unclamped = {
    ...offer,
    price: typeof offer.price === 'object' && 'index' in offer.price ? offer.price.base : offer.price,
  };
  const plant = derivePlant({ ...scenario, contracts: [unclamped] });
  return Object.values(plant.contracts[0].price).flat();
}

/** The plan that delivers a firm volume for nothing, by the plant's own contract, solved from cold. */
async function freshReceipts(scenario: Scenario, offer: Contract, volume: number) {
  const plant = derivePlant({ ...scenario, contracts: [...(scenario.contracts ?? []), offer] });
  const at = async (mass: number) => {
    const contracts = plant.contracts.map((contract): PlantContract => {
      if (contract.id !== offer.id) return contract;
      const { termMin: _, termMax: __, shortfall: ___, expected: ____, ...rest } = contract;
      const monthly = contract.inForce.map((share) => share * mass);
      const price = Object.fromEntries(contract.materials.map((id) => [id, contract.inForce.map(() => 0)]));
      return { ...rest, price, monthlyMin: monthly, monthlyMax: monthly };
    });
    const answer = planMonths({ ...plant, contracts }, await solverFor('highs'));
    return 'plan' in answer ? answer.plan.statement : undefined;
  };
  const [none, some] = [await at(0), await at(volume)];
  if (none === undefined || some === undefined) return undefined;
  return { receipts: none.presentValue - some.presentValue, scale: Math.max(none.scale, some.scale) };
}

function ladderOf({ quote }: JudgedOffer): QuoteLadder | undefined {
  return quote !== undefined && quote.ladder.rungs.length > 0 ? quote.ladder : undefined;
}

describe('the quote ladder of generated plants', () => {
  it('agrees with fresh solves at 50 random volumes, and ends where nothing more can be served', async () => {
    let ladders = 0;
    for (const seed of [3, 4, 5, 8, 12]) {
      const { scenario, offer } = caseOf(seed);
      const ladder = ladderOf(await judged(scenario, offer, { parts: new Set(['ladder']) }));
      if (ladder === undefined) continue;
      ladders += 1;
      expect(ladder.exact).toBe(true);
      const random = seededRandom(seed, 'volumes');
      for (let i = 0; i < 50; i++) {
        const volume = random.real(0, 1, 6) * ladder.largest.volume;
        const fresh = (await freshReceipts(scenario, offer, volume))!;
        const error = Math.abs(receiptsAt(ladder, volume)! - fresh.receipts);
        expect(error, `seed ${seed} at ${volume}`).toBeLessThanOrEqual(1e-6 * fresh.scale);
      }
      const { volume } = ladder.largest;
      expect(await freshReceipts(scenario, offer, volume * 1.001 + 0.01)).toBeUndefined();
    }
    expect(ladders).toBeGreaterThan(3);
  }, 60_000);

  it('takes as much from outlets, contracts, waste, stocks and feeds together as it delivers', async () => {
    let moved = 0;
    for (let seed = 1; seed <= 40; seed++) {
      const { scenario, offer } = caseOf(seed);
      const answer = await judged(scenario, offer, { parts: new Set(['ladder']) });
      if (ladderOf(answer) === undefined) continue;
      const { volumes, delivered, sources } = answer.quote!.displaced;
      expect(volumes).toEqual([0, ...answer.quote!.ladder.rungs.map(({ to }) => to)]);
      const most = Math.max(...delivered);
      volumes.forEach((volume, i) => {
        const taken = sources.reduce(
          (sum, { kind, change }) => sum + (kind === 'receive' ? change[i] : -change[i]),
          0,
        );
        expect(Math.abs(taken - delivered[i]), `seed ${seed} at ${volume}`).toBeLessThanOrEqual(1e-6 * most);
      });
      moved += sources.length;
    }
    expect(moved).toBeGreaterThan(60);
  }, 60_000);

  it('is convex, and quotes a firm offer the price at which it breaks even', async () => {
    let compared = 0;
    for (let seed = 1; seed <= 40; seed++) {
      const { scenario, offer } = caseOf(seed);
      const { materials } = offer;
      const volume = typeof offer.monthly?.max === 'number' ? offer.monthly.max / 2 : 0;
      if (materials.length > 1 || volume === 0) continue;
      const { term: _, shortfall: __, ...rest } = offer;
      const firm = { ...rest, monthly: { min: volume, max: volume } };
      const answer = await judged(scenario, firm, { parts: new Set(['ladder']) });
      const ladder = ladderOf(answer);
      if (ladder === undefined || !ladder.exact) continue;
      const { rungs } = ladder;
      for (let i = 1; i < rungs.length; i++) expect(rungs[i].slope).toBeGreaterThan(rungs[i - 1].slope);
      const { price } = answer.breakEven;
      if (price === undefined) continue;
      compared += 1;
      const quoted = priceFor(answer.quote!.unit, receiptsAt(ladder, volume)! / volume)!;
      expect(Math.abs(quoted - price) / (1 + Math.abs(price)), `seed ${seed}`).toBeLessThan(1e-6);
    }
    expect(compared).toBeGreaterThan(15);
  }, 60_000);
});

it('the bridge adds up, in total and month by month', async () => {
  let bridges = 0;
  for (let seed = 1; seed <= 40; seed++) {
    const { scenario, offer } = caseOf(seed);
    const { displaced, gain } = await judged(scenario, offer, { parts: new Set(['displaced']) });
    if (displaced === undefined) continue;
    bridges += 1;
    const { scale } = displaced.without.statement;
    const months = displaced.months.map(({ bridge }) => bridge);
    for (const { from, to, effects } of [displaced.bridge, ...months]) {
      const sum = effects.reduce((total, { amount }) => total + amount, from);
      expect(Math.abs(sum - to)).toBeLessThanOrEqual(1e-6 * Math.max(1, scale));
    }
    const total = months.reduce((sum, { from, to }) => sum + to - from, 0);
    expect(Math.abs(total - gain!.margin!)).toBeLessThanOrEqual(1e-6 * Math.max(1, scale));
    const { without, with: signed } = displaced;
    const value = signed.statement.presentValue - without.statement.presentValue;
    expect(Math.abs(value - gain!.presentValue)).toBeLessThanOrEqual(1e-6 * Math.max(1, scale));
  }
  expect(bridges).toBeGreaterThan(30);
}, 60_000);

it('each term apart is worth what a fresh plan with it changed earns more', async () => {
  const { scenario, offer } = caseOf(2);
  const { terms } = await judged(scenario, offer, EVERYTHING);
  const own = (await freshValue(scenario, [offer]))!;
  const { monthly, paymentDays: _, ...rest } = offer;
  const { max: __, ...onlyMin } = monthly ?? {};
  const changed: [string, Contract][] = [
    ['no monthly maximum', { ...offer, monthly: onlyMin }],
    ['paid at the end of the month', { ...rest, monthly }],
  ];
  for (const [change, other] of changed) {
    const worth = terms.find((term) => term.change === change)?.worth;
    const fresh = (await freshValue(scenario, [other]))!;
    if (worth !== undefined)
      expect(Math.abs(worth - (fresh.value - own.value))).toBeLessThan(1e-6 * own.scale);
  }
  expect(terms.length).toBeGreaterThan(2);
});

it('the best set is the best of all sets, tried one by one', async () => {
  for (const seed of [1, 2, 3, 6, 7, 9]) {
    const scenario = generateScenario(seed, { months: 1 });
    const count = seed === 1 ? 8 : 3;
    const offers = Array.from({ length: count }, (_, i) => generateOffer(seed * 10 + i, scenario));
    const plant = derivePlant({ ...scenario, contracts: [...(scenario.contracts ?? []), ...offers] });
    const request = {
      offers: offers.map(({ id }) => id),
      divisible: new Set<string>(),
      counting: 'whole' as const,
    };
    const solver = await solverFor('highs');
    const values: number[] = [];
    for (let bits = 0; bits < 2 ** count; bits++) {
      const fresh = await freshValue(
        scenario,
        offers.filter((_, i) => (bits >> i) & 1),
      );
      values.push(fresh?.value ?? Number.NEGATIVE_INFINITY);
    }
    const ranked = [...values].sort((a, b) => b - a);
    for (const allSetsUpTo of [8, 0]) {
      const answer = bestSet(plant, { ...request, allSetsUpTo }, solver, { gap: 1e-9 });
      if (answer.status !== 'chosen') throw new Error(answer.status);
      const near = 1e-6 * answer.best.scale;
      expect(Math.abs(answer.best.value - ranked[0]), `seed ${seed}, ${answer.manner}`).toBeLessThanOrEqual(
        near,
      );
      expect(Math.abs(answer.runnerUp!.value - ranked[1])).toBeLessThanOrEqual(near);
      for (const { offer, loss } of answer.losses) {
        const i = offers.findIndex(({ id }) => id === offer);
        const others = values.filter((_, bits) => ((bits >> i) & 1) === 0);
        expect(Math.abs(loss! - (ranked[0] - Math.max(...others)))).toBeLessThanOrEqual(near);
      }
    }
  }
}, 60_000);

it('with whole shifts the break-even lies between what both gaps leave open', async () => {
  let intervals = 0;
  for (const seed of [1, 2, 3, 4, 5]) {
    const scenario = generateScenario(seed, { months: 1, integers: true });
    const offer = generateOffer(seed, scenario);
    const limits = { gap: 1e-3 };
    const { breakEven, hasWhole } = await judged(scenario, offer, {}, limits);
    if (!hasWhole || breakEven.interval === undefined) continue;
    intervals += 1;
    const { low, high } = breakEven.interval;
    if (high === undefined) throw new Error(`seed ${seed}: no upper end`);
    const valueAt = async (contracts: Contract[]) => {
      const plant = derivePlant({ ...scenario, contracts: [...(scenario.contracts ?? []), ...contracts] });
      const answer = planMonths(plant, await solverFor('highs'), { gap: 1e-9 });
      if (!('plan' in answer)) throw new Error(answer.status);
      return answer.plan.statement;
    };
    const without = await valueAt([]);
    const above = await valueAt([priced(offer, breakEven, high)]);
    const near = 1e-6 * without.scale;
    expect(above.presentValue - without.presentValue, `seed ${seed}`).toBeGreaterThanOrEqual(-near);
    if (low === undefined) continue;
    const below = await valueAt([priced(offer, breakEven, low)]);
    expect(below.presentValue - without.presentValue, `seed ${seed}`).toBeLessThanOrEqual(near);
  }
  expect(intervals).toBeGreaterThan(2);
}, 60_000);
