import { ProgramBuilder } from '../../../src/program/builder.js';
import type { LinearProgram } from '../../../src/program/linear-program.js';

/**
 * Williams, Model Building in Mathematical Programming, "Food manufacture": six months of buying, refining
 * and storing five oils for one product. Prices read at
 * https://support.sas.com/documentation/onlinedoc/or/ex_code/123/mpex01.html; the rest from memory, confirmed
 * by the published optimum.
 */
const OILS = [
  { oil: 'VEG1', kind: 'vegetable', hardness: 8.8, prices: [110, 130, 110, 120, 100, 90] },
  { oil: 'VEG2', kind: 'vegetable', hardness: 6.1, prices: [120, 130, 140, 110, 120, 100] },
  { oil: 'OIL1', kind: 'other', hardness: 2.0, prices: [130, 110, 130, 120, 150, 140] },
  { oil: 'OIL2', kind: 'other', hardness: 4.2, prices: [110, 90, 100, 120, 110, 80] },
  { oil: 'OIL3', kind: 'other', hardness: 5.0, prices: [115, 115, 95, 125, 105, 135] },
] as const;
const MONTHS = 6;
const REFINED_A_MONTH = { vegetable: 200, other: 250 };
const PRICE = 150;
const STORE = { limit: 1000, cost: 5, first: 500, last: 500 };

type Builder = ProgramBuilder<string, string>;

/** Tonnes used of each oil, by month: the columns that the second problem's conditions speak of. */
type Used = readonly (readonly number[])[];

/** The first problem: linear. */
export function foodManufacture1(): LinearProgram<string, string> {
  const builder: Builder = new ProgramBuilder('maximize');
  addFoods(builder);
  return builder.build();
}

/**
 * The second: at most three oils a month; an oil that is used, 20 tonnes or more; with either vegetable oil
 * OIL3 too.
 */
export function foodManufacture2(): LinearProgram<string, string> {
  const builder: Builder = new ProgramBuilder('maximize');
  const used = addFoods(builder);
  for (let t = 0; t < MONTHS; t++) addConditions(builder, used, t);
  return builder.build();
}

function addFoods(builder: Builder): Used {
  const used: number[][] = OILS.map(() => []);
  const before: (number | undefined)[] = OILS.map(() => undefined);
  for (let t = 0; t < MONTHS; t++) {
    const made = builder.column(`make ${t}`, { cost: PRICE });
    const mass = builder.row(`mass ${t}`, { lower: 0, upper: 0 });
    const soft = builder.row(`at most hard ${t}`, { upper: 0 });
    const hard = builder.row(`at least hard ${t}`, { lower: 0 });
    const refined = {
      vegetable: builder.row(`vegetable ${t}`, { upper: REFINED_A_MONTH.vegetable }),
      other: builder.row(`other ${t}`, { upper: REFINED_A_MONTH.other }),
    };
    builder.add(mass, made, -1);
    builder.add(soft, made, -6);
    builder.add(hard, made, -3);
    for (const [o, { oil, kind, hardness, prices }] of OILS.entries()) {
      const buy = builder.column(`buy ${oil} ${t}`, { cost: -prices[t] });
      const use = builder.column(`use ${oil} ${t}`);
      const last = t === MONTHS - 1;
      const stock = builder.column(`stock ${oil} ${t}`, {
        cost: -STORE.cost,
        lower: last ? STORE.last : 0,
        upper: last ? STORE.last : STORE.limit,
      });
      const opening = t === 0 ? STORE.first : 0;
      const balance = builder.row(`balance ${oil} ${t}`, { lower: -opening, upper: -opening });
      builder.add(balance, buy, 1);
      builder.add(balance, use, -1);
      builder.add(balance, stock, -1);
      const carried = before[o];
      if (carried !== undefined) builder.add(balance, carried, 1);
      before[o] = stock;
      builder.add(mass, use, 1);
      builder.add(soft, use, hardness);
      builder.add(hard, use, hardness);
      builder.add(refined[kind], use, 1);
      used[o].push(use);
    }
  }
  return used;
}

function addConditions(builder: Builder, used: Used, t: number): void {
  const three = builder.row(`three oils ${t}`, { upper: 3 });
  const open = OILS.map(({ oil, kind }, o) => {
    const flag = builder.column(`use ${oil} at all ${t}`, { upper: 1, integer: true });
    builder.add(three, flag, 1);
    const most = builder.row(`none unless open ${oil} ${t}`, { upper: 0 });
    builder.add(most, used[o][t], 1);
    builder.add(most, flag, -REFINED_A_MONTH[kind]);
    const least = builder.row(`twenty if open ${oil} ${t}`, { lower: 0 });
    builder.add(least, used[o][t], 1);
    builder.add(least, flag, -20);
    return flag;
  });
  for (const vegetable of [0, 1]) {
    const row = builder.row(`OIL3 with ${OILS[vegetable].oil} ${t}`, { upper: 0 });
    builder.add(row, open[vegetable], 1);
    builder.add(row, open[4], -1);
  }
}
