import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { evaluateDraws } from '../../src/analysis/risk/evaluate-draws.js';
import { programOfDraw } from '../../src/analysis/risk/factor-changes.js';
import { type RiskModel, riskModel } from '../../src/analysis/risk/risk-model.js';
import { openAnalysisPool } from '../../src/host/analysis-pool.js';
import { assessRiskInPool } from '../../src/host/assess-risk-in-pool.js';
import { PACKAGE_ROOT } from '../../src/host/package-root.js';
import { ThreadPool } from '../../src/host/thread-pool.js';
import { certify } from '../../src/program/certificate.js';
import type { Scenario } from '../../src/scenario/schema/scenario.js';
import { loadSolver, type Solver } from '../../src/solver/choose.js';
import { openWarm } from '../../src/solver/warm-solver.js';
import { generateScenario } from '../generate/plant.js';
import { median, printTable } from './measure.js';

const DRAWS = 1000;

/** Runs before those that are counted. */
const WARM_UP = 5;

/** The shipped twelve months without what makes whole numbers and without a response to the fee. */
function linearTwelveMonths(): Scenario {
  const text = readFileSync(new URL('../../scenarios/twelve-months.json', import.meta.url), 'utf8');
  const document = JSON.parse(text) as Scenario;
  return {
    ...document,
    crews: document.crews?.map((crew) => ({ ...crew, staffing: 'hourly' as const })),
    feeds: document.feeds.map(({ response: _, ...feed }) => feed),
  };
}

/** A full generated plant; drawn prices stay above those of further tiers since there are none. */
function fullPlant(seed: number): Scenario {
  const features = { uncertainty: true, response: false, stock: true };
  const drawn = generateScenario(seed, { size: 'full', months: 12, features });
  return {
    ...drawn,
    outlets: drawn.outlets?.map((outlet) =>
      outlet.tiers === undefined ? outlet : { ...outlet, tiers: [outlet.tiers[0]] },
    ),
  };
}

/**
 * A thousand draws over twelve months, linear, each certified, against a thousand cold solves of the same engine
 * in the same warmed process, certified too. One thread on both sides. Cold is told in two ways: the arrays handed
 * to a new model, and the arrays changed in a model that is kept, its basis cleared. `all in` counts what comes
 * before the first draw too, in a process that has done it before: making the draws, the plan in advance, what each
 * number reaches in the program.
 */
it('a thousand draws against a thousand cold solves', async () => {
  const solver = await loadSolver('highs');
  const rows: Record<string, string | number>[] = [];
  const cases = [
    ['shipped', linearTwelveMonths()],
    ...[3, 5, 8, 11].map((seed) => [`generated ${seed}`, fullPlant(seed)] as const),
  ] as const;
  for (const [name, document] of cases) {
    for (let i = 0; i < WARM_UP; i++) riskModel(document, { seed: 1, draws: DRAWS }, solver);
    const setUp = elapsed(() => riskModel(document, { seed: 7, draws: DRAWS }, solver));
    const found = setUp.result;
    if (!found.ok || found.model.changes === undefined) throw new Error('not one by one on straight lines');
    const { model } = found;
    const memory = process.memoryUsage().rss;
    const warm = elapsed(() => model.paths.flatMap((path) => evaluateDraws(model, path, solver)));
    const grown = process.memoryUsage().rss - memory;
    const values = new Map(
      warm.result.map(({ draw, outcome }) => [draw, outcome.kind === 'planned' ? outcome : undefined]),
    );
    const programs = model.factors.map((factors) => programOfDraw(model, model.changes ?? [], factors));
    const opened = elapsed(() => programs.map((program) => coldValue(solver, program)));
    const kept = elapsed(() => keptColdValues(solver, programs));
    const differences = [opened, kept].flatMap(({ result }) =>
      result.map((value, draw) => {
        const mine = values.get(draw);
        return mine === undefined || value === undefined ? 0 : Math.abs(value - mine.value) / mine.scale;
      }),
    );
    const worst = Math.max(...differences);
    rows.push({
      case: name,
      columns: model.expected.program.cost.length,
      'set-up ms': setUp.ms,
      'ms a draw': warm.ms / DRAWS,
      'ms cold, opened': opened.ms / DRAWS,
      'ms cold, kept': kept.ms / DRAWS,
      'times, opened': opened.ms / warm.ms,
      'times, kept': kept.ms / warm.ms,
      'all in, opened': opened.ms / (warm.ms + setUp.ms),
      'worst difference': worst.toExponential(1),
      'MB grown': grown / 2 ** 20,
    });
    expect(worst).toBeLessThan(1e-9);
  }
  printTable(`${DRAWS} draws`, rows);
});

/**
 * The whole analysis as the command line runs it, from the document to the answer, in two warmed worker threads by the
 * clock, against the cold solves alone in two threads.
 */
it('the risk of a year in two workers against a thousand cold solves in two', async () => {
  const document = linearTwelveMonths();
  const request = { seed: 7, draws: DRAWS };
  const found = riskModel(document, request, await loadSolver('highs'));
  if (!found.ok) throw new Error(found.reason);
  const { model } = found;
  const pool = openAnalysisPool({
    worker: new URL('dist/host/analysis-worker.js', PACKAGE_ROOT),
    workers: 2,
  });
  const coldPool = new ThreadPool({
    program: new URL('cold-worker.js', import.meta.url),
    threads: 2,
    isReady: true,
  });
  const coldOf = (paths: RiskModel['paths']) =>
    Promise.all(paths.map((path) => coldPool.call<number[]>('cold', { model, path })));
  try {
    const runs = [];
    for (let run = 0; run < 2 * WARM_UP; run++)
      runs.push(await clocked(() => assessRiskInPool(document, request, pool)));
    const { result: answer } = runs[0];
    if (answer === undefined || !('values' in answer)) throw new Error('no answer');
    await coldOf(model.paths.map((path) => path.slice(0, 20)));
    const cold = await clocked(() => coldOf(model.paths));
    const order = model.paths.flat();
    const scale = Math.max(...cold.result.flat().map(Math.abs));
    cold.result.flat().forEach((value, i) => {
      expect(Math.abs(value - (answer.values[order[i]] ?? 0)) / scale).toBeLessThan(1e-9);
    });
    const warm = median(runs.slice(WARM_UP).map(({ ms }) => ms));
    printTable(`the risk of ${DRAWS} draws in two workers, ms by the clock`, [
      { 'first run': runs[0].ms, later: warm, 'cold solves': cold.ms, times: cold.ms / warm },
    ]);
  } finally {
    await Promise.all([pool.close(), coldPool.close()]);
  }
});

async function clocked<T>(call: () => Promise<T>): Promise<{ readonly result: T; readonly ms: number }> {
  const started = performance.now();
  const result = await call();
  return { result, ms: performance.now() - started };
}

type Program = ReturnType<typeof programOfDraw>;

/** The certified value from a model that is opened for it; undefined where there is none. */
function coldValue({ engines: [engine] }: Solver, program: Program): number | undefined {
  const session = engine.open(program);
  try {
    const { primal, dual } = session.solve();
    if (primal === undefined || dual === undefined) return undefined;
    return certify(program, { primal, rowDual: dual.rowDual }).objective;
  } finally {
    session.close();
  }
}

/** The same from one model, in which each program starts from no basis but that of slacks. */
function keptColdValues(solver: Solver, programs: readonly Program[]): (number | undefined)[] {
  const warm = openWarm(solver);
  warm.open(programs[0]);
  const clear = {
    columns: programs[0].columnKeys.map(() => 'at lower' as const),
    rows: programs[0].rowKeys.map(() => 'basic' as const),
  };
  try {
    return programs.map((program) => {
      if (!warm.isOpen) warm.open(program);
      warm.startFrom(clear);
      const answer = warm.solve(program);
      return answer.kind === 'solved' ? answer.certificate.objective : undefined;
    });
  } finally {
    warm.close();
  }
}

function elapsed<T>(call: () => T): { readonly result: T; readonly ms: number } {
  const before = process.cpuUsage();
  const result = call();
  const { user, system } = process.cpuUsage(before);
  return { result, ms: (user + system) / 1000 };
}
