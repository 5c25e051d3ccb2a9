import { it } from 'vitest';
import { formulate } from '../../src/planning/formulate.js';
import { derivePlant } from '../../src/plant/derive-plant.js';
import { columnCount, hasIntegers } from '../../src/program/linear-program.js';
import { loadSolver } from '../../src/solver/choose.js';
import { generateScenario } from '../generate/plant.js';
import { median, printTable, quantile } from './measure.js';

/**
 * What the automatic choice rests on: both engines over at least 500 generated plants, by size and whole
 * numbers: time, and the share of answers that certify (or agree that there is no plan).
 */
const CLASSES = [
  { name: 'small, 1 month', count: 150, options: { months: 1 } },
  { name: 'small, 2 months', count: 100, options: { months: 2 } },
  { name: 'small, 3 months', count: 100, options: { months: 3 } },
  { name: 'full, 1 month', count: 60, options: { months: 1, size: 'full' } },
  { name: 'full, 2 months', count: 30, options: { months: 2, size: 'full' } },
  { name: 'full, 3 months', count: 20, options: { months: 3, size: 'full' } },
  { name: 'small, 6 months', count: 30, options: { months: 6 } },
  { name: 'small, 1 month, whole', count: 40, options: { months: 1, integers: true } },
  { name: 'small, 3 months, whole', count: 20, options: { months: 3, integers: true } },
] as const;

it('compares the engines', async () => {
  const rows: Record<string, string | number>[] = [];
  for (const { name, count, options } of CLASSES) {
    const programs = Array.from({ length: count }, (_, i) => {
      const scenario = generateScenario(50_000 + i, {
        ...options,
        degenerate: i % 4 === 0,
        tight: i % 5 === 0,
      });
      return formulate(derivePlant(scenario)).program;
    }).filter((program) => hasIntegers(program) === 'integers' in options);
    for (const choice of ['javascript-lp-solver', 'highs'] as const) {
      const solver = await loadSolver(choice);
      solver.solve(programs[0]);
      const times: number[] = [];
      const outcomes = programs.map((program) => {
        const started = performance.now();
        const answer = solver.solve(program, { seconds: 5, gap: 1e-4 });
        times.push(performance.now() - started);
        return answer.kind;
      });
      const share = (kind: string) =>
        `${((100 * outcomes.filter((each) => each === kind).length) / outcomes.length).toFixed(1)} %`;
      rows.push({
        class: name,
        plants: programs.length,
        columns: median(programs.map(columnCount)),
        engine: choice,
        'median ms': median(times),
        '95 % ms': quantile(times, 0.95),
        certified: share('solved'),
        infeasible: share('infeasible'),
        stopped: share('stopped'),
        uncertified: share('uncertified'),
      });
    }
  }
  printTable('Engines over generated plants', rows);
});
