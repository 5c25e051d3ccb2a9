import { readdirSync, readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { boundSide } from '../../src/analysis/ranging/bound-side.js';
import { columnChange, rowChange } from '../../src/analysis/ranging/changes.js';
import { costSide } from '../../src/analysis/ranging/cost-side.js';
import { openRanger, type Ranger } from '../../src/analysis/ranging/ranger.js';
import type { AffineChange } from '../../src/program/affine-change.js';
import type { LinearProgram } from '../../src/program/linear-program.js';
import { loadSolver, type Solver } from '../../src/solver/choose.js';
import { type ModelJson, programFrom } from '../solver/model-json.js';

/** The published linear programs that state duals or ranges; sources and status of the figures in each file. */
interface PublishedCase {
  readonly model: ModelJson;
  readonly expected: {
    readonly objective: number;
    readonly rowDual?: Readonly<Record<string, number>>;
    readonly rightSideRanges?: Readonly<Record<string, Range>>;
    readonly costRanges?: Readonly<Record<string, Range>>;
  };
}

interface Range {
  readonly from?: number;
  readonly to?: number;
}

/** The published figures are given to nine digits or more. */
const PRECISION = 1e-8;

const folder = new URL('./linear-programs/', import.meta.url);
const cases = readdirSync(folder).map((file): [string, PublishedCase] => [
  file,
  JSON.parse(readFileSync(new URL(file, folder), 'utf8')),
]);
const withRanges = cases.filter(([, { expected }]) => expected.rightSideRanges ?? expected.costRanges);

describe.each(['highs', 'javascript-lp-solver'] as const)('one-sided rents and ranges by %s', (engine) => {
  let solver: Solver;
  beforeAll(async () => {
    solver = await loadSolver(engine);
  });

  it.each(withRanges)(
    '%s: published duals on both sides, and how far they hold',
    (_, { model, expected }) => {
      opened(programFrom(model), solver, (ranger, program) => {
        expectNear(ranger.value, expected.objective);
        for (const [name, dual] of Object.entries(expected.rowDual ?? {})) {
          const { less, more } = sidesOf(
            ranger,
            rowChange(program, row(program, name)),
            sideOf(program, name),
          );
          expectNear(less.slope, dual);
          expectNear(more.slope, dual);
        }
        for (const [name, range] of Object.entries(expected.rightSideRanges ?? {})) {
          const side = sideOf(program, name);
          const { less, more } = sidesOf(ranger, rowChange(program, row(program, name)), side);
          expectNear(side - less.end, range.from ?? Number.NEGATIVE_INFINITY);
          expectNear(side + more.end, range.to ?? Number.POSITIVE_INFINITY);
        }
      });
    },
  );

  it.each(withRanges)('%s: published cost ranges', (_, { model, expected }) => {
    opened(programFrom(model), solver, (ranger, program) => {
      for (const [name, { from, to }] of Object.entries(expected.costRanges ?? {})) {
        const column = program.columnKeys.indexOf(name);
        const rates = new Map([[column, 1]]);
        const [down, up] = ([-1, 1] as const).map((direction) => costSide(ranger, rates, direction));
        if (down.kind !== 'stays' || up.kind !== 'stays') throw new Error('unanswered');
        if (from !== undefined) expectNear(program.cost[column] - down.end, from);
        if (to !== undefined) expectNear(program.cost[column] + up.end, to);
      }
      expect(ranger.value).toBeDefined();
    });
  });

  /**
   * Two plants with supply for exactly what two markets ask for: the data as published; one-sided figures by
   * hand. Boston more is infeasible; Boston less frees the dearest route, Detroit to Boston (30) or Pittsburgh
   * to New York with New York from Detroit (10 − 20 + 30 = 20 by Pittsburgh).
   */
  it('a balanced transport problem has a rent for less and none for more', () => {
    const [, { model }] = cases.find(([file]) => file === 'two-plants-two-markets.json')!;
    opened(programFrom(model), solver, (ranger, program) => {
      const change = rowChange(program, row(program, 'boston'));
      const more = boundSide(ranger, change, 1, { size: 150 });
      expect(more.kind).toBe('infeasible');
      const less = boundSide(ranger, change, -1, { size: 150 });
      expect(less).toMatchObject({ kind: 'straight' });
      // Detroit has 50 to New York left; with less for Boston, Detroit sends less.
      expectNear(less.kind === 'straight' ? -less.slope : Number.NaN, 30);
    });
  });

  /** max x + y, x + y ≤ 10, x ≤ 10, y ≤ 0: three limits through one point; worth 1 for less, and 0 for more of x. */
  it('a degenerate limit is worth more when it shrinks than when it grows', () => {
    const model: ModelJson = {
      sense: 'maximize',
      columns: { x: { cost: 1, upper: 10 }, y: { cost: 1, upper: 0 } },
      rows: { both: { upper: 10, terms: { x: 1, y: 1 } } },
    };
    opened(programFrom(model), solver, (ranger, program) => {
      const both = sidesOf(ranger, rowChange(program, 0), 10);
      expect(both.less).toEqual({ slope: 1, end: 10 });
      expect(both.more).toEqual({ slope: 0, end: Number.POSITIVE_INFINITY });
      const x = sidesOf(ranger, columnChange(0, 'upper'), 10);
      expect(x.less).toEqual({ slope: 1, end: 10 });
      expect(x.more).toEqual({ slope: 0, end: Number.POSITIVE_INFINITY });
    });
  });
});

function opened(
  program: LinearProgram,
  solver: Solver,
  check: (ranger: Ranger, program: LinearProgram) => void,
): void {
  const ranger = openRanger(program, solver);
  if (ranger === undefined) throw new Error('no optimum');
  try {
    check(ranger, program);
  } finally {
    ranger.close();
  }
}

function row(program: LinearProgram, name: string): number {
  return program.rowKeys.indexOf(name);
}

function sideOf(program: LinearProgram, name: string): number {
  const at = row(program, name);
  return Number.isFinite(program.rowUpper[at]) ? program.rowUpper[at] : program.rowLower[at];
}

/** Slopes by unit of the right side, on both sides. */
function sidesOf(ranger: Ranger, change: AffineChange, size: number) {
  const [less, more] = ([-1, 1] as const).map((direction) => {
    const side = boundSide(ranger, change, direction, { size });
    if (side.kind !== 'straight') throw new Error(side.kind);
    return { slope: side.slope === 0 ? 0 : direction * side.slope, end: side.end };
  });
  return { less, more };
}

function expectNear(actual: number, expected: number): void {
  if (!Number.isFinite(expected)) expect(actual).toBe(expected);
  else expect(Math.abs(actual - expected)).toBeLessThanOrEqual(PRECISION * (1 + Math.abs(expected)));
}
