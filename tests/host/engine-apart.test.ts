import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { engineApart } from '../../src/host/engine-apart.js';
import { formulate, type PlanProgram } from '../../src/planning/formulate.js';
import { derivePlant } from '../../src/plant/derive-plant.js';
import { hasIntegers, objectiveAt } from '../../src/program/linear-program.js';
import { loadHighs } from '../../src/solver/highs.js';
import { type Engine, EngineFailure, solveOnce } from '../../src/solver/port.js';
import { builtProgram } from '../built-program.js';
import { generateScenario } from '../generate/plant.js';

let highs: Engine;
let worker: URL;
let folder: string;
beforeAll(async () => {
  highs = await loadHighs();
  worker = new URL('solve-worker.js', (await builtProgram()).planWorker);
  folder = mkdtempSync(join(tmpdir(), 'cutpoint-apart-'));
}, 180_000);

afterAll(() => rmSync(folder, { recursive: true }));

function byTheShift(seed: number): PlanProgram {
  const scenario = generateScenario(seed);
  const crews = scenario.crews?.map((crew) => ({ ...crew, staffing: 'by the shift' as const }));
  return formulate(derivePlant({ ...scenario, ...(crews === undefined ? {} : { crews }) })).program;
}

/** An engine apart whose thread does with an order what the code says. */
function withThread(name: string, code: string): Engine {
  const path = join(folder, `${name}.mjs`);
  writeFileSync(
    path,
    `import { workerData } from 'node:worker_threads';
    const { port, flags } = workerData;
    port.on('message', () => { ${code} });`,
  );
  return engineApart(highs, pathToFileURL(path));
}

test('solves whole numbers apart as the engine does here', () => {
  const apart = engineApart(highs, worker);
  let whole = 0;
  for (let seed = 1; seed <= 12; seed++) {
    const program = byTheShift(seed);
    if (hasIntegers(program)) whole += 1;
    const [here, there] = [highs, apart].map((engine) => solveOnce(engine, program, { gap: 1e-6 }));
    expect(there.reason, `seed ${seed}`).toBe(here.reason);
    if (here.primal === undefined || there.primal === undefined) continue;
    expect(objectiveAt(program, there.primal), `seed ${seed}`).toBe(objectiveAt(program, here.primal));
  }
  expect(whole).toBeGreaterThan(6);
});

test('a thread that is silent is ended when the solve is to stop, and the next solve has another one', () => {
  const program = byTheShift(1);
  const silent = withThread('silent', 'for (;;);');
  let looks = 0;
  for (let run = 0; run < 2; run++) {
    const answer = solveOnce(silent, program, { cancelled: () => ++looks % 3 === 0 });
    expect(answer).toEqual({ reason: 'cancelled' });
  }
  expect(looks).toBe(6);
});

test('what breaks in the thread is a failure of the engine', () => {
  const broken = withThread(
    'broken',
    `port.postMessage({ kind: 'failure', detail: 'out of order' }); Atomics.add(flags, 0, 1); Atomics.notify(flags, 0);`,
  );
  expect(() => solveOnce(broken, byTheShift(1))).toThrow(new EngineFailure('highs', 'out of order'));
});
