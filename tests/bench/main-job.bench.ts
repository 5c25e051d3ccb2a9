import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { it } from 'vitest';
import { planMonths } from '../../src/analysis/monthly-plan.js';
import { formulate } from '../../src/planning/formulate.js';
import { derivePlant } from '../../src/plant/derive-plant.js';
import { columnCount, rowCount } from '../../src/program/linear-program.js';
import type { Scenario } from '../../src/scenario/schema/scenario.js';
import { loadSolver } from '../../src/solver/choose.js';
import { solveOnce } from '../../src/solver/port.js';
import { generateScenario } from '../generate/plant.js';
import { median, printTable, timed } from './measure.js';

const ROOT = new URL('../..', import.meta.url).pathname;
const RUNS = 9;
/** Calls until the compiler is done: what a server sees, and what both sides are compared at. */
const WARMUP = 40;

function shipped(name: string): Scenario {
  return JSON.parse(readFileSync(join(ROOT, 'scenarios', name), 'utf8'));
}

/** The same plant with crews paid by the hour: no whole numbers. */
function hourly(scenario: Scenario): Scenario {
  return { ...scenario, crews: scenario.crews?.map((crew) => ({ ...crew, staffing: 'hourly' as const })) };
}

const CASES: readonly { name: string; scenario: Scenario }[] = [
  { name: 'shipped, one month', scenario: shipped('one-month.json') },
  { name: 'generated full plant, one month', scenario: generateScenario(7, { size: 'full', months: 1 }) },
  { name: 'shipped, twelve months, hourly crews', scenario: hourly(shipped('twelve-months.json')) },
  {
    name: 'generated full plant, twelve months',
    scenario: generateScenario(7, { size: 'full', months: 12 }),
  },
];

it('times the main job as a whole process, and in process against the bare solver call', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'cutpoint-'));
  const solver = await loadSolver();
  const rows = CASES.map(({ name, scenario }, i) => {
    const file = join(folder, `${i}.json`);
    writeFileSync(file, JSON.stringify(scenario));
    const main = join(ROOT, 'dist/cli/main.js');
    const whole = timed(() => spawnSync(process.execPath, [main, 'plan', file], { maxBuffer: 1e8 }), RUNS);
    const plant = derivePlant(scenario);
    const { program } = formulate(plant);
    const engine = solver.enginesFor(program)[0];
    const bare = timed(() => solveOnce(engine, program), RUNS, WARMUP);
    const planned = timed(() => planMonths(derivePlant(scenario), solver), RUNS, WARMUP);
    return {
      case: name,
      columns: columnCount(program),
      rows: rowCount(program),
      engine: engine.name,
      'whole process ms': median(whole),
      'bare solve ms': median(bare),
      'plant to plan ms': median(planned),
      ratio: median(planned) / median(bare),
    };
  });
  rmSync(folder, { recursive: true });
  printTable('The main job (medians)', rows);
});
