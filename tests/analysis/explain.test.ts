import { beforeAll, describe, expect, it } from 'vitest';
import { explainPlan } from '../../src/analysis/explain/explain-plan.js';
import type { Explanation, Rent } from '../../src/analysis/explain/explanation.js';
import { planLimits } from '../../src/analysis/limits/plan-limits.js';
import { discountFactor } from '../../src/planning/discount.js';
import { NO_CHANGE, reducedCostOf } from '../../src/program/affine-change.js';
import { loadSolver, type Solver } from '../../src/solver/choose.js';
import { type ExplainCase, explainCase } from './explain-cases.js';

const PLANTS = Array.from({ length: 300 }, (_, seed) => seed + 1);
/** On the scale S: what a rent or a range may miss a re-solve by. */
const TOLERANCE = 1e-6;
/** On the scale S: what a value may be off a line by and count as on it. */
const ON = 1e-10;
/** On the scale S: what a value must be off a line by to be off it; rounding of a value is below 1e-13 of it. */
const OFF = 1e-11;

interface Explained {
  readonly own: ExplainCase;
  readonly explanation: Explanation;
}

let solver: Solver;
let explained: readonly Explained[];
beforeAll(async () => {
  solver = await loadSolver();
  explained = PLANTS.map((seed) => {
    const own = explainCase(seed, solver, { months: 1 + (seed % 2), degenerate: seed % 5 === 0 });
    const explanation = explainPlan(own.answer, solver);
    if (explanation === undefined) throw new Error(`seed ${seed}: no explanation`);
    return { own, explanation };
  });
}, 120_000);

function each(check: (own: ExplainCase, explanation: Explanation) => void): void {
  for (const { own, explanation } of explained) {
    try {
      check(own, explanation);
    } finally {
      own.close();
    }
  }
}

describe('explanations of generated plants', () => {
  it('the terms of a step account add up to its gain, which is the reduced cost of its run: 0 where it runs, none above', () => {
    each(({ seed, answer, scale }, explanation) => {
      const { formulation, rowDual } = answer.solved;
      const { plant, program, columns } = formulation;
      for (const account of explanation.steps) {
        const k = plant.steps.findIndex(({ id }) => id === account.step);
        const w = plant.windows.findIndex(({ id }) => id === account.window);
        const reduced = reducedCostOf(program, columns.run[k][w][account.month], rowDual);
        const gain = reduced / discountFactor(plant, account.month);
        const { worthOut, worthIn, power, wear, machine, crew, peak } = account;
        const size = 1 + Math.abs(worthOut) + Math.abs(worthIn);
        const where = `seed ${seed} ${account.step}`;
        expect(Math.abs(account.gain - gain), where).toBeLessThanOrEqual(1e-9 * size);
        const sum = worthOut - worthIn - power - wear - machine - crew - peak;
        expect(Math.abs(sum - account.gain), where).toBeLessThanOrEqual(1e-9 * size);
        expect(account.gain, where).toBeLessThanOrEqual(1e-6 * size);
        if (account.mass > 1e-6 * scale)
          expect(Math.abs(account.gain), where).toBeLessThanOrEqual(1e-6 * size);
      }
    });
  });

  it('one-sided rents agree with re-solves at half their range or half a unit', () => {
    let sides = 0;
    each((own, { rents, unanswered }) => {
      expect(unanswered, `seed ${own.seed}`).toBe(0);
      for (const rent of rents) sides += checkSlopes(own, rent);
    });
    expect(sides).toBeGreaterThan(4000);
  });

  it('ranges of rents end where they say: on the line before, off it or infeasible beyond', () => {
    let ends = 0;
    each((own, { rents }) => {
      for (const rent of rents) ends += checkEnds(own, rent);
    });
    expect(ends).toBeGreaterThan(4000);
  });

  it('what the plan leaves alone comes in just above its price and not just below', () => {
    let entries = 0;
    each((own, { wouldTake }) => {
      for (const entry of wouldTake) {
        if (entry.rise === undefined) continue;
        entries += 1;
        const { columns, rate } = pricedColumns(own, entry.what);
        const cost = new Map(columns.map((column) => [column, rate]));
        const gain = (rise: number) =>
          (own.valueAt({ ...NO_CHANGE, cost }, rise) ?? Number.NaN) - own.value - entry.used * rate * rise;
        const by = 1e-6 * (1 + entry.rise);
        const where = `seed ${own.seed} ${JSON.stringify(entry)}`;
        if (entry.rise > by) expect(gain(entry.rise - by) / own.scale, where).toBeLessThanOrEqual(ON);
        expect(gain(entry.rise + 0.1) / own.scale, where).toBeGreaterThan(OFF);
      }
    });
    expect(entries).toBeGreaterThan(2000);
  });

  it('prices move as far as is said before the plan is no longer the best, and no further', () => {
    let ends = 0;
    each((own, { firmness }) => {
      for (const entry of firmness) {
        for (const side of ['less', 'more'] as const) {
          const { by } = entry[side];
          if (by === undefined) continue;
          ends += 1;
          const cost = ratesOf(own, entry.number);
          const sign = side === 'less' ? -1 : 1;
          const slope = [...cost].reduce((sum, [j, rate]) => sum + rate * own.answer.solved.primal[j], 0);
          const off = (theta: number) =>
            ((own.valueAt({ ...NO_CHANGE, cost }, sign * theta) ?? Number.NaN) - own.value) / own.scale -
            (sign * theta * slope) / own.scale;
          const where = `seed ${own.seed} ${JSON.stringify(entry)} ${side}`;
          const size = entry.unit === 'money by energy' ? 0.01 : 1;
          if (by > 1e-6 * size) expect(off(by * (1 - 1e-6)), where).toBeLessThanOrEqual(ON);
          expect(off(by + 0.1 * size), where).toBeGreaterThan(OFF);
        }
      }
    });
    expect(ends).toBeGreaterThan(2000);
  });
});

/** The columns whose cost a number moves by one unit, found from the plant once more. */
function ratesOf(own: ExplainCase, number: Explanation['firmness'][number]['number']): Map<number, number> {
  const { plant, program } = own.formulation;
  const rates = new Map<number, number>();
  const of = <T extends { readonly id: string }>(list: readonly T[], id: string) =>
    list.find((each) => each.id === id)!;
  program.columnKeys.forEach((key, column) => {
    if (key.kind === 'missedTerm' && number.kind === 'termCharge' && key.contract === number.contract) {
      const { lastMonth = 0 } = of(plant.contracts, key.contract);
      rates.set(column, -discountFactor(plant, lastMonth));
    }
    if (!('month' in key)) return;
    const now = discountFactor(plant, key.month);
    const paid = (days: number) => discountFactor(plant, key.month, days);
    const rate = (() => {
      switch (number.kind) {
        case 'outletPrice':
          return key.kind === 'sell' && key.outlet === number.outlet && key.tier === number.tier
            ? paid(of(plant.outlets, key.outlet).paymentDays)
            : 0;
        case 'contractPrice': {
          if (key.kind !== 'deliver' || key.contract !== number.contract) return 0;
          const contract = of(plant.contracts, key.contract);
          const moves = key.material === number.material && contract.inForce[key.month] > 0;
          return moves ? paid(contract.paymentDays) : 0;
        }
        case 'tippingFee':
          return key.kind === 'receive' && key.feed === number.feed
            ? paid(of(plant.feeds, key.feed).paymentDays)
            : 0;
        case 'powerPrice':
          return key.kind === 'run' && key.window === number.window
            ? -now * of(plant.steps, key.step).energy[key.month]
            : 0;
        case 'wage': {
          if (key.kind !== 'attended' || key.crew !== number.crew) return 0;
          const { wageFactor } = of(plant.windows, key.window);
          return -now * of(plant.crews, key.crew).people * wageFactor;
        }
        case 'wear':
          return key.kind === 'run' && key.step === number.step ? -now : 0;
        case 'disposalCharge':
          return key.kind === 'dispose' && key.disposal === number.disposal ? -now : 0;
        case 'demandCharge':
          return key.kind === 'peak' ? -now : 0;
        case 'outletFreight':
        case 'outletPacking':
          return key.kind === 'sell' && key.outlet === number.outlet ? -now : 0;
        case 'contractFreight':
        case 'contractPacking': {
          if (key.kind !== 'deliver' || key.contract !== number.contract) return 0;
          const isIn = of(plant.contracts, key.contract).inForce[key.month] > 0;
          return isIn && key.material === number.material ? -now : 0;
        }
        case 'feedHaulage':
          return key.kind === 'receive' && key.feed === number.feed ? -now : 0;
        case 'disposalHaulage': {
          const isIt = key.kind === 'dispose' && key.disposal === number.disposal;
          return isIt && key.material === number.material ? -now : 0;
        }
        case 'holdingCost':
          return key.kind === 'stock' && key.material === number.material ? -now : 0;
        case 'closingValue': {
          const isLast = key.month === plant.months.length - 1;
          return key.kind === 'stock' && key.material === number.material && isLast ? now : 0;
        }
        case 'shortfallCharge':
          return key.kind === 'missed' && key.contract === number.contract ? -now : 0;
        case 'termCharge':
          return 0;
      }
    })();
    if (rate !== 0) rates.set(column, rate);
  });
  return rates;
}

function limitOf(own: ExplainCase, rent: Rent) {
  const name = JSON.stringify(rent.limit);
  return planLimits(own.formulation).find(({ key }) => JSON.stringify(key) === name)!;
}

function checkSlopes(own: ExplainCase, rent: Rent): number {
  const { change } = limitOf(own, rent);
  const factor = discountFactor(own.formulation.plant, rent.limit.month);
  let checked = 0;
  for (const direction of [1, -1] as const) {
    const slope = direction === 1 ? rent.oneMore : rent.oneLess;
    const where = `seed ${own.seed} ${JSON.stringify(rent)} ${direction}`;
    checked += 1;
    if (slope === undefined) {
      expect(own.valueAt(change, direction * 1e-3 * (1 + rent.amount)), where).toBeUndefined();
      continue;
    }
    const range = (direction === 1 ? rent.holdsTo : rent.holdsFrom) ?? direction * Number.POSITIVE_INFINITY;
    const step = Math.min(Math.abs(range - rent.amount) / 2, 0.5);
    const value = own.valueAt(change, direction * step);
    const gain = slope * factor * direction * step;
    expect(Math.abs((value ?? Number.NaN) - own.value - gain) / own.scale, where).toBeLessThanOrEqual(
      TOLERANCE,
    );
  }
  return checked;
}

function checkEnds(own: ExplainCase, rent: Rent): number {
  const { change } = limitOf(own, rent);
  const factor = discountFactor(own.formulation.plant, rent.limit.month);
  let checked = 0;
  for (const direction of [1, -1] as const) {
    const slope = direction === 1 ? rent.oneMore : rent.oneLess;
    const range = direction === 1 ? rent.holdsTo : rent.holdsFrom;
    // At nothing the limit stops making sense, whatever the line does.
    if (slope === undefined || range === undefined || (direction === -1 && range <= 1e-9)) continue;
    const width = Math.abs(range - rent.amount);
    const where = `seed ${own.seed} ${JSON.stringify(rent)} ${direction}`;
    const off = (step: number) => {
      const value = own.valueAt(change, direction * step);
      if (value === undefined) return Number.POSITIVE_INFINITY;
      return Math.abs(value - own.value - slope * factor * direction * step) / own.scale;
    };
    checked += 1;
    expect(off(width * (1 - 1e-6)), where).toBeLessThanOrEqual(TOLERANCE);
    expect(off(width + 0.1 * (1 + rent.amount)), where).toBeGreaterThan(OFF);
  }
  return checked;
}

function pricedColumns(own: ExplainCase, what: Explanation['wouldTake'][number]['what']) {
  const { plant, columns } = own.formulation;
  const { month } = what;
  const find = (list: readonly { readonly id: string }[], id: string) =>
    list.findIndex((each) => each.id === id);
  switch (what.kind) {
    case 'outlet': {
      const o = find(plant.outlets, what.outlet);
      const rate = discountFactor(plant, month, plant.outlets[o].paymentDays);
      return { columns: [columns.sell[o][what.tier][month]], rate };
    }
    case 'feed': {
      const f = find(plant.feeds, what.feed);
      return {
        columns: [columns.receive[f][month]],
        rate: discountFactor(plant, month, plant.feeds[f].paymentDays),
      };
    }
    case 'step': {
      const k = find(plant.steps, what.step);
      return { columns: columns.run[k].map((window) => window[month]), rate: discountFactor(plant, month) };
    }
    case 'contract': {
      const c = find(plant.contracts, what.contract);
      const m = plant.contracts[c].materials.indexOf(what.material);
      return {
        columns: [columns.deliver[c][m][month]],
        rate: discountFactor(plant, month, plant.contracts[c].paymentDays),
      };
    }
  }
}
