import { beforeAll, describe, expect, it } from 'vitest';
import { boundSide } from '../../src/analysis/ranging/bound-side.js';
import { costSide } from '../../src/analysis/ranging/cost-side.js';
import { openRanger } from '../../src/analysis/ranging/ranger.js';
import { rowChange } from '../../src/analysis/ranging/row-change.js';
import type { LinearProgram } from '../../src/program/linear-program.js';
import { loadSolver, type Solver } from '../../src/solver/choose.js';
import { type ModelJson, programFrom } from '../solver/model-json.js';

/** A published problem: value, duals of rows, right-side ranges of rows, cost ranges of columns. */
interface Published {
  readonly source: string;
  readonly model: ModelJson;
  readonly value: number;
  readonly duals: Readonly<Record<string, number>>;
  readonly sides: Readonly<Record<string, readonly [number, number]>>;
  readonly costs: Readonly<Record<string, readonly [number, number]>>;
}

const INF = Number.POSITIVE_INFINITY;

const PROBLEMS: Readonly<Record<string, Published>> = {
  'window maker with two products and three plants': {
    source:
      'Hillier and Lieberman, Introduction to Operations Research: model, y2 = 3/2, right side of plant 2 from 6 to 18 and upper cost 15/2 as read in the documentation of the simplex-trace crate, the rest from memory',
    model: {
      sense: 'maximize',
      columns: { x1: { cost: 3 }, x2: { cost: 5 } },
      rows: {
        plant1: { upper: 4, terms: { x1: 1 } },
        plant2: { upper: 12, terms: { x2: 2 } },
        plant3: { upper: 18, terms: { x1: 3, x2: 2 } },
      },
    },
    value: 36,
    duals: { plant1: 0, plant2: 1.5, plant3: 1 },
    sides: { plant1: [2, INF], plant2: [6, 18], plant3: [12, 24] },
    costs: { x1: [0, 7.5], x2: [2, INF] },
  },
  'desks, tables and chairs': {
    source: 'Winston, Operations Research, the furniture example, read in a course handout (studylib 8571959)',
    model: {
      sense: 'maximize',
      columns: { desks: { cost: 60 }, tables: { cost: 30, upper: 5 }, chairs: { cost: 20 } },
      rows: {
        lumber: { upper: 48, terms: { desks: 8, tables: 6, chairs: 1 } },
        finishing: { upper: 20, terms: { desks: 4, tables: 2, chairs: 1.5 } },
        carpentry: { upper: 8, terms: { desks: 2, tables: 1.5, chairs: 0.5 } },
      },
    },
    value: 280,
    duals: { lumber: 0, finishing: 10, carpentry: 10 },
    sides: { lumber: [24, INF], finishing: [16, 24], carpentry: [8 - 4 / 3, 10] },
    costs: { desks: [56, 80], tables: [-INF, 35], chairs: [15, 22.5] },
  },
  'how far to process: perfume and what can be made of it': {
    source: 'Winston, Operations Research, the perfume example; from memory, ranges recomputed by hand',
    model: {
      sense: 'maximize',
      columns: {
        regular: { cost: 7 },
        luxury: { cost: 14 },
        regularTwo: { cost: 6 },
        luxuryTwo: { cost: 10 },
        raw: { cost: -3 },
      },
      rows: {
        rawLimit: { upper: 4000, terms: { raw: 1 } },
        hours: { upper: 6000, terms: { luxury: 3, luxuryTwo: 2, raw: 1 } },
        first: { equal: 0, terms: { regular: 1, luxury: 1, raw: -3 } },
        second: { equal: 0, terms: { regularTwo: 1, luxuryTwo: 1, raw: -4 } },
      },
    },
    value: 172666 + 2 / 3,
    duals: { rawLimit: 39 + 2 / 3, hours: 2 + 1 / 3 },
    sides: { rawLimit: [600, 6000], hours: [4000, 40000] },
    costs: {
      regular: [-4.9, 8],
      luxury: [13, 133],
      regularTwo: [5 + 1 / 3, INF],
      luxuryTwo: [-INF, 10 + 2 / 3],
      raw: [-42 - 2 / 3, INF],
    },
  },
  'sample of a free solver: three products': {
    source: 'GLPK reference manual, the sample problem; model as read in hmatrix-glpk, ranges recomputed',
    model: {
      sense: 'maximize',
      columns: { x1: { cost: 10 }, x2: { cost: 6 }, x3: { cost: 4 } },
      rows: {
        p: { upper: 100, terms: { x1: 1, x2: 1, x3: 1 } },
        q: { upper: 600, terms: { x1: 10, x2: 4, x3: 5 } },
        r: { upper: 300, terms: { x1: 2, x2: 2, x3: 6 } },
      },
    },
    value: 733 + 1 / 3,
    duals: { p: 10 / 3, q: 2 / 3, r: 0 },
    sides: { p: [60, 150], q: [400, 1000], r: [200, INF] },
    costs: { x1: [6, 15], x2: [4, 10], x3: [-INF, 6 + 2 / 3] },
  },
  'ranging with bounds': {
    source: 'lp_solve reference guide, page on sensitivity (lpsolve.sourceforge.net/5.5/sensitivity.htm)',
    model: {
      sense: 'minimize',
      columns: {
        x: { cost: 1, lower: 28.6 },
        y: { cost: 3 },
        z: { cost: 6.24 },
        w: { cost: 0.1, lower: 18, upper: 48.98 },
      },
      rows: {
        first: { lower: 92.3, terms: { y: 78.26, w: 2.9 } },
        second: { upper: 14.8, terms: { x: 0.24, z: 11.31 } },
        third: { lower: 4, terms: { x: 12.68, z: 0.08, w: 0.9 } },
      },
    },
    value: 31.7827586,
    duals: { first: 0.0344827586, second: 0, third: 0 },
    sides: { first: [52.2, 142.042] },
    costs: { y: [2.698621, INF], w: [0, 0.1111679] },
  },
  'corn for ethanol plants: ammonia': {
    source: 'IBM ILOG CPLEX Optimization Studio documentation, production planning example (model); ranges recomputed',
    model: {
      sense: 'maximize',
      columns: { gas: { cost: 40 }, chloride: { cost: 50, upper: 40 } },
      rows: {
        nitrogen: { upper: 50, terms: { gas: 1, chloride: 1 } },
        hydrogen: { upper: 180, terms: { gas: 3, chloride: 4 } },
      },
    },
    value: 2300,
    duals: { nitrogen: 10, hydrogen: 10 },
    sides: { nitrogen: [46 + 2 / 3, 60], hydrogen: [150, 190] },
    costs: { gas: [37.5, 50], chloride: [40, 53 + 1 / 3] },
  },
  dairy: {
    source: 'a worked example of two products of milk, as read at cnblogs.com/iforeverhz/p/16255969.html',
    model: {
      sense: 'maximize',
      columns: { a: { cost: 72 }, b: { cost: 64 } },
      rows: {
        milk: { upper: 50, terms: { a: 1, b: 1 } },
        hours: { upper: 480, terms: { a: 12, b: 8 } },
        machine: { upper: 100, terms: { a: 3 } },
      },
    },
    value: 3360,
    duals: { milk: 48, hours: 2, machine: 0 },
    sides: { milk: [43 + 1 / 3, 60], hours: [400, 533 + 1 / 3], machine: [60, INF] },
    costs: { a: [64, 96], b: [48, 72] },
  },
};

describe.each(['highs', 'javascript-lp-solver'] as const)('published duals and ranges, by %s', (engine) => {
  let solver: Solver;
  beforeAll(async () => {
    solver = await loadSolver(engine);
  });

  it.each(Object.entries(PROBLEMS))('%s', (_, { model, value, duals, sides, costs }) => {
    const program = programFrom(model);
    const ranger = openRanger(program, solver)!;
    try {
      expect(ranger.value).toBeCloseTo(value, 5);
      for (const [name, dual] of Object.entries(duals)) {
        const [less, more] = sidesOf(ranger, program, name);
        expect(less.slope, `${name}, one less`).toBeCloseTo(dual, 5);
        expect(more.slope, `${name}, one more`).toBeCloseTo(dual, 5);
      }
      for (const [name, [from, to]] of Object.entries(sides)) {
        const [less, more] = sidesOf(ranger, program, name);
        const side = sideOf(program, name);
        expect(side - less.end, `${name} from`).toBeCloseTo(from, 4);
        expect(side + more.end, `${name} to`).toBeCloseTo(to, 4);
      }
      for (const [name, [from, to]] of Object.entries(costs)) {
        const column = program.columnKeys.indexOf(name);
        const rates = new Map([[column, 1]]);
        const down = costSide(ranger, rates, -1);
        const up = costSide(ranger, rates, 1);
        if (down.kind !== 'stays' || up.kind !== 'stays') throw new Error('unanswered');
        expect(program.cost[column] - down.end, `cost of ${name} from`).toBeCloseTo(from, 5);
        expect(program.cost[column] + up.end, `cost of ${name} to`).toBeCloseTo(to, 5);
      }
    } finally {
      ranger.close();
    }
  });
});

function sideOf(program: LinearProgram, name: string): number {
  const row = program.rowKeys.indexOf(name);
  return Number.isFinite(program.rowUpper[row]) ? program.rowUpper[row] : program.rowLower[row];
}

function sidesOf(ranger: NonNullable<ReturnType<typeof openRanger>>, program: LinearProgram, name: string) {
  const row = program.rowKeys.indexOf(name);
  const options = { size: sideOf(program, name) };
  return ([-1, 1] as const).map((direction) => {
    const side = boundSide(ranger, rowChange(program, row), direction, options);
    if (side.kind !== 'straight') throw new Error(`${name}: ${side.kind}`);
    return { slope: direction * side.slope, end: side.end };
  });
}
