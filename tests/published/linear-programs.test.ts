import { readdirSync, readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { certify } from '../../src/program/certificate.js';
import { hasIntegers, type LinearProgram, objectiveAt } from '../../src/program/linear-program.js';
import { loadHighs } from '../../src/solver/highs.js';
import { loadJavascriptLpSolver } from '../../src/solver/javascript-lp-solver.js';
import { type Engine, solveOnce } from '../../src/solver/port.js';
import { type ModelJson, programFrom } from '../solver/model-json.js';

/** A published linear program: one JSON file beside this test, with its source and how each figure is known. */
interface PublishedCase {
  readonly title: string;
  readonly source: string;
  readonly status: Readonly<Record<string, string>>;
  readonly model: ModelJson;
  readonly expected: {
    readonly objective: number;
    readonly primal?: Readonly<Record<string, number>>;
    /** d objective / d right side, where unique. */
    readonly rowDual?: Readonly<Record<string, number>>;
    readonly reducedCost?: Readonly<Record<string, number>>;
    /** Where a right side may move before its dual changes; a side that is absent has no end. */
    readonly rightSideRanges?: Readonly<Record<string, Range>>;
    /** Where a cost may move before the optimal point changes. */
    readonly costRanges?: Readonly<Record<string, Range>>;
  };
  readonly variants?: readonly { readonly change: Change; readonly objective: number }[];
}

interface Range {
  readonly from?: number;
  readonly to?: number;
}

interface Change {
  readonly cost?: Readonly<Record<string, number>>;
  readonly upper?: Readonly<Record<string, number>>;
}

/** The published figures are given to nine digits or more. */
const PRECISION = 1e-8;

const folder = new URL('./linear-programs/', import.meta.url);
const cases = readdirSync(folder).map((file): [string, PublishedCase] => [
  file,
  JSON.parse(readFileSync(new URL(file, folder), 'utf8')),
]);

const loaders: [string, () => Promise<Engine>][] = [
  ['HiGHS', loadHighs],
  ['javascript-lp-solver', loadJavascriptLpSolver],
];

it('there are at least fourteen published programs, each with its source and the status of its figures', () => {
  expect(cases.length).toBeGreaterThanOrEqual(14);
  for (const [, { source, status }] of cases) {
    expect(source.length).toBeGreaterThan(10);
    expect(Object.keys(status)).toContain('objective');
  }
});

describe.each(loaders)('published linear programs on %s', (_, load) => {
  let engine: Engine;
  beforeAll(async () => {
    engine = await load();
  });

  it.each(cases)('%s: the published optimum, certified', (_file, { model, expected }) => {
    const program = programFrom(model);
    const answer = solveOnce(engine, program);
    expect(answer.reason).toBe('optimal');
    const primal = answer.primal as Float64Array;
    expectNear(objectiveAt(program, primal), expected.objective);
    expect(certify(program, { primal, rowDual: answer.dual?.rowDual }).failures).toEqual([]);
    expectFigures(program.columnKeys, primal, expected.primal);
    expectFigures(program.rowKeys, answer.dual?.rowDual, expected.rowDual);
    expectFigures(program.columnKeys, answer.dual?.reducedCost, expected.reducedCost);
  });

  it.each(cases.filter(([, { expected }]) => expected.rightSideRanges))(
    '%s: each dual holds as far as published, and no further',
    (_file, { model, expected }) => {
      const program = programFrom(model);
      for (const [name, range] of Object.entries(expected.rightSideRanges ?? {})) {
        const row = program.rowKeys.indexOf(name);
        const lower = Number.isFinite(program.rowLower[row]);
        const now = lower ? program.rowLower[row] : program.rowUpper[row];
        const predicted = (to: number) => expected.objective + (expected.rowDual?.[name] ?? 0) * (to - now);
        const value = (to: number) => valueAfter(engine, program, [rightSide(program, name, to)]);
        checkRange(range, now, value, predicted);
      }
    },
  );

  it.each(cases.filter(([, { expected }]) => expected.costRanges))(
    '%s: the plan stays the best as far as published, and no further',
    (_file, { model, expected }) => {
      const program = programFrom(model);
      for (const [name, range] of Object.entries(expected.costRanges ?? {})) {
        const now = program.cost[program.columnKeys.indexOf(name)];
        const predicted = (to: number) => expected.objective + (expected.primal?.[name] ?? 0) * (to - now);
        const value = (to: number) => valueAfter(engine, program, [{ column: name, cost: to }]);
        checkRange(range, now, value, predicted);
      }
    },
  );

  it.each(
    cases.flatMap(([file, { model, variants = [] }]) => variants.map((v) => [file, model, v] as const)),
  )('%s: a change of one figure has the published effect', (_file, model, variant) => {
    const program = programFrom(model);
    const { cost = {}, upper = {} } = variant.change;
    const objective = valueAfter(engine, program, [
      ...Object.entries(cost).map(([column, figure]) => ({ column, cost: figure })),
      ...Object.entries(upper).map(([row, figure]) => rightSide(program, row, figure)),
    ]);
    expectNear(objective, variant.objective);
  });

  it('and none of them has duals where it has whole numbers', () => {
    for (const [, { model }] of cases) {
      const program = programFrom(model);
      expect(solveOnce(engine, program).dual === undefined).toBe(hasIntegers(program));
    }
  });
});

function expectNear(actual: number, published: number): void {
  expect(Math.abs(actual - published)).toBeLessThanOrEqual(PRECISION * (1 + Math.abs(published)));
}

function expectFigures(
  keys: readonly unknown[],
  actual: Float64Array | undefined,
  published: Readonly<Record<string, number>> = {},
): void {
  for (const [name, figure] of Object.entries(published)) {
    expect(keys).toContain(name);
    expectNear((actual as Float64Array)[keys.indexOf(name)], figure);
  }
}

/** The optimal value follows the published line up to each end of the range, and has left it a little beyond. */
function checkRange(
  range: Range,
  now: number,
  value: (figure: number) => number,
  predicted: (figure: number) => number,
): void {
  const ends = [range.from ?? now - 0.9 * Math.abs(now), range.to ?? now + 10 * (1 + Math.abs(now))];
  for (const end of ends) {
    expect(Math.abs(value(end) - predicted(end))).toBeLessThanOrEqual(1e-6 * (1 + Math.abs(predicted(end))));
  }
  for (const end of [range.from, range.to]) {
    if (end === undefined) continue;
    const beyond = end + Math.sign(end - now) * 0.05 * (1 + Math.abs(end - now));
    expect(Math.abs(value(beyond) - predicted(beyond))).toBeGreaterThan(
      1e-6 * (1 + Math.abs(predicted(beyond))),
    );
  }
}

/** One figure of a program, to be changed. */
type Edit =
  | { readonly column: string; readonly cost: number }
  | { readonly row: string; readonly lower: number; readonly upper: number };

/** The optimal value after the edits, solved from the optimum before them; infinite where there is none. */
function valueAfter(engine: Engine, program: LinearProgram, edits: readonly Edit[]): number {
  const cost = program.cost.slice();
  const session = engine.open(program);
  try {
    session.solve();
    for (const edit of edits) {
      if ('column' in edit) {
        const column = program.columnKeys.indexOf(edit.column);
        cost[column] = edit.cost;
        session.setCost(column, edit.cost);
      } else {
        session.setRowBounds(program.rowKeys.indexOf(edit.row), edit.lower, edit.upper);
      }
    }
    const { primal } = session.solve();
    return primal === undefined ? Number.POSITIVE_INFINITY : objectiveAt({ ...program, cost }, primal);
  } finally {
    session.close();
  }
}

function rightSide(program: LinearProgram, row: string, to: number): Edit {
  const i = program.rowKeys.indexOf(row);
  return {
    row,
    lower: Number.isFinite(program.rowLower[i]) ? to : program.rowLower[i],
    upper: Number.isFinite(program.rowUpper[i]) ? to : program.rowUpper[i],
  };
}
