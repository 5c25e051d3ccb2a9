import { expect, it } from 'vitest';
import { planMonths } from '../../../src/analysis/monthly-plan.js';
import type { Best } from '../../../src/analysis/offer/best.js';
import { breakEvenWhole } from '../../../src/analysis/offer/break-even-whole.js';
import { judgeOffer } from '../../../src/analysis/offer/judge-offer.js';
import type { JudgedOffer } from '../../../src/analysis/offer/offer-answer.js';
import { offerProgram, withNothingSold } from '../../../src/analysis/offer/offer-program.js';
import { bestSet } from '../../../src/analysis/offer/offer-sets.js';
import { OfferSolver } from '../../../src/analysis/offer/offer-solver.js';
import { priceParameters } from '../../../src/analysis/offer/price-parameter.js';
import { type HeldPlan, searchedStaffing } from '../../../src/analysis/offer/staffing-search.js';
import { type Formulation, formulate } from '../../../src/planning/formulate.js';
import type { Statement } from '../../../src/planning/plan.js';
import { derivePlant } from '../../../src/plant/derive-plant.js';
import { hasIntegers, relaxed, withIntegersHeld } from '../../../src/program/linear-program.js';
import type { Contract, Scenario } from '../../../src/scenario/schema/scenario.js';
import type { Solver } from '../../../src/solver/choose.js';
import { generateOffer } from '../../generate/offer.js';
import { generateScenario } from '../../generate/plant.js';
import { tinyScenario } from '../../planning/tiny-plant.js';
import { solverFor } from '../../solver/solver-for.js';
import { NOTHING_ELSE, shredOffer, signedInto } from './judged.js';

/** Like the solver, but a search with whole numbers is always stopped before it has found anything. */
function withoutTime(solver: Solver): Solver {
  return {
    ...solver,
    solve: (program, limits, options) =>
      hasIntegers(program)
        ? { kind: 'stopped', reason: 'time limit', attempts: [] }
        : solver.solve(program, limits, options),
  };
}

async function exactValue(scenario: Scenario, contracts: readonly Contract[]): Promise<Statement>;
async function exactValue(
  scenario: Scenario,
  contracts: readonly Contract[],
  perhaps: 'perhaps',
): Promise<Statement | undefined>;
async function exactValue(scenario: Scenario, contracts: readonly Contract[], perhaps?: 'perhaps') {
  const plant = derivePlant({ ...scenario, contracts: [...(scenario.contracts ?? []), ...contracts] });
  const answer = planMonths(plant, await solverFor('highs'), { gap: 1e-9 });
  if ('plan' in answer) return answer.plan.statement;
  if (perhaps === undefined) throw new Error(answer.status);
  return undefined;
}

it('a search that is stopped at once still leaves a verdict and a break-even that hold', async () => {
  let intervals = 0;
  for (let seed = 1; seed <= 40; seed++) {
    const scenario = generateScenario(seed, { months: 2, integers: true });
    const offer = generateOffer(seed, scenario);
    if (typeof offer.price !== 'number' || offer.term !== undefined) continue;
    const answer = judgeOffer(
      signedInto(scenario, offer),
      NOTHING_ELSE,
      withoutTime(await solverFor('highs')),
    );
    if (answer.status !== 'judged' || !answer.hasWhole) continue;
    const without = await exactValue(scenario, []);
    const near = 1e-6 * without.scale;
    const gainAt = async (price: number) =>
      (await exactValue(scenario, [{ ...offer, price }])).presentValue - without.presentValue;
    await expectHonest(answer, gainAt, near, `seed ${seed}`);
    if (answer.breakEven.interval?.high !== undefined) intervals += 1;
  }
  expect(intervals).toBeGreaterThan(3);
}, 120_000);

async function expectHonest(
  { gain, verdict, breakEven }: JudgedOffer,
  gainAt: (price: number) => Promise<number>,
  near: number,
  name: string,
): Promise<void> {
  if (gain === undefined) return;
  const exact = await gainAt(breakEven.own);
  expect(exact, name).toBeGreaterThanOrEqual(gain.low - near);
  expect(exact, name).toBeLessThanOrEqual(gain.high + near);
  if (verdict.kind === 'take') expect(exact, name).toBeGreaterThan(0);
  if (verdict.kind === 'take only above') expect(exact, name).toBeLessThanOrEqual(near);
  const { low, high } = breakEven.interval ?? {};
  if (high !== undefined) expect(await gainAt(high), name).toBeGreaterThanOrEqual(-near);
  if (low !== undefined) expect(await gainAt(low), name).toBeLessThanOrEqual(near);
}

/** Every plan that it knows is worth 30 less than the best one, and its bound is 20 above that. */
class Doubtful extends OfferSolver {
  override lent(formulation: Formulation, shape: string): Best | undefined {
    return this.best(formulation, shape);
  }
  override best(formulation: Formulation, shape: string): Best | undefined {
    const best = super.best(formulation, shape);
    return best === undefined ? undefined : { ...best, value: best.value - 30, bound: best.value + 20 };
  }
  override improved(best: Best): Best {
    return best;
  }
}

// The best plans: W without the offer, and W + 10·(p − 30) with it at a price p.
it('what is open of both plans stands about the break-even: 10·(p − 30) + 20 ≤ 0 below, 10·(p − 30) − 30 ≥ 15 above', async () => {
  const { scenario, offer, plant } = signedInto(tinyScenario(), shredOffer());
  const solver = new Doubtful(await solverFor('highs'), 'in parts');
  const program = offerProgram(plant, offer.id);
  const own = solver.best(program.formulation, 'signed')!;
  const bare = new OfferSolver(await solverFor('highs'), 'in parts').best(
    withNothingSold(program),
    'signed',
  )!;
  const without = { ...bare, bound: bare.value + 15 };
  const parameter = priceParameters(scenario, offer).all!;
  const found = breakEvenWhole({ program, parameter, without, margin: 0, own }, solver);
  if (!found.found) throw new Error(found.reason);
  expect(found.price).toBeCloseTo(33, 6);
  expect(found.interval?.low).toBeCloseTo(28, 6);
  expect(found.interval?.high).toBeCloseTo(34.5, 6);
});

it('a set of offers is the best one, or another is said to be possibly better; losses lie between what is open', async () => {
  let [sets, told] = [0, 0];
  for (let seed = 1; seed <= 20; seed++) {
    const scenario = generateScenario(seed, { months: 1, integers: true });
    const offers = [0, 1, 2].map((i) => generateOffer(seed * 10 + i, scenario));
    if (offers.some(({ term }) => term !== undefined)) continue;
    const plant = derivePlant({ ...scenario, contracts: [...(scenario.contracts ?? []), ...offers] });
    const request = {
      offers: offers.map(({ id }) => id),
      divisible: new Set<string>(),
      counting: 'whole' as const,
    };
    for (const solver of [await solverFor('highs'), withoutTime(await solverFor('highs'))]) {
      const answer = bestSet(plant, request, solver);
      if (answer.status !== 'chosen' || answer.counting === undefined) continue;
      const exactFor = async (ids: readonly string[]) =>
        (
          await exactValue(
            scenario,
            offers.filter(({ id }) => ids.includes(id)),
            'perhaps',
          )
        )?.presentValue;
      const exact = await Promise.all(
        Array.from({ length: 8 }, async (_, bits) => {
          const ids = request.offers.filter((__, i) => (bits >> i) & 1).sort();
          return { ids, value: (await exactFor(ids)) ?? Number.NEGATIVE_INFINITY };
        }),
      );
      const most = Math.max(...exact.map(({ value }) => value));
      const near = 1e-6 * answer.best.scale;
      const own = exact.find(
        ({ ids }) => ids.join() === answer.best.offers.map(({ offer }) => offer).join(),
      )!;
      expect(answer.best.value, `seed ${seed}`).toBeLessThanOrEqual(own.value + near);
      const bounds = [answer.best.bound, ...answer.undecided.map(({ bound }) => bound)];
      expect(most, `seed ${seed}`).toBeLessThanOrEqual(Math.max(...bounds) + near);
      if (answer.undecided.length === 0)
        expect(own.value, `seed ${seed}`).toBeGreaterThanOrEqual(most - near);
      else told += 1;
      for (const { offer, loss, low = loss, high = loss } of answer.losses) {
        if (loss === undefined) continue;
        const others = exact.filter(({ ids }) => !ids.includes(offer)).map(({ value }) => value);
        const exactLoss = own.value - Math.max(...others);
        expect(exactLoss, `seed ${seed} ${offer}`).toBeGreaterThanOrEqual(low! - near);
        expect(exactLoss, `seed ${seed} ${offer}`).toBeLessThanOrEqual(high! + near);
      }
      sets += 1;
    }
  }
  expect(sets).toBeGreaterThan(6);
  expect(told).toBeGreaterThan(0);
}, 120_000);

it('a staffing made better step by step is a plan, never worse than the first nor better than the best', async () => {
  let [better, cases, short] = [0, 0, 0];
  for (let seed = 1; seed <= 24; seed++) {
    const scenario = generateScenario(seed, { months: 2, integers: true });
    const { program } = formulate(derivePlant(scenario));
    if (!hasIntegers(program)) continue;
    const solver = await solverFor('highs');
    const hold = (staffing: Float64Array): HeldPlan | undefined => {
      const answer = solver.solve(withIntegersHeld(program, staffing));
      if (answer.kind !== 'solved') return undefined;
      return {
        primal: answer.answer.primal,
        rowDual: answer.rowDual,
        value: answer.certificate.objective,
      };
    };
    const relaxation = solver.solve(relaxed(program));
    if (relaxation.kind !== 'solved') continue;
    const first = hold(
      relaxation.answer.primal.map((value, j) =>
        program.integer[j] === 1 ? Math.ceil(value - 1e-6) : value,
      ),
    );
    if (first === undefined) continue;
    const found = searchedStaffing(program, first, hold);
    const best = solver.solve(program, { gap: 1e-9 });
    if (best.kind !== 'solved') throw new Error(`seed ${seed}: ${best.kind}`);
    const { objective, scale } = best.certificate;
    cases += 1;
    expect(found.value).toBeGreaterThanOrEqual(first.value);
    expect(found.value).toBeLessThanOrEqual(objective + 1e-6 * scale);
    if (found.value > first.value + 1e-6 * scale) better += 1;
    short += (objective - found.value) / scale;
  }
  expect(cases).toBeGreaterThan(6);
  expect(better).toBeGreaterThan(3);
  expect(short / cases).toBeLessThan(0.005);
}, 120_000);
