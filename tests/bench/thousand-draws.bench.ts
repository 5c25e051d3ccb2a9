import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { evaluateDraws } from '../../src/analysis/risk/evaluate-draws.js';
import { programOfDraw, riskModel } from '../../src/analysis/risk/risk-model.js';
import { certify } from '../../src/program/certificate.js';
import type { Scenario } from '../../src/scenario/schema/scenario.js';
import { loadSolver, type Solver } from '../../src/solver/choose.js';
import { openWarm } from '../../src/solver/warm-solver.js';
import { generateScenario } from '../generate/plant.js';
import { printTable } from './measure.js';

const DRAWS = 1000;

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
 * before the first draw too: making the draws, the plan in advance, what each number reaches in the program.
 */
it('a thousand draws against a thousand cold solves', async () => {
  const solver = await loadSolver('highs');
  const rows: Record<string, string | number>[] = [];
  const cases = [
    ['shipped', linearTwelveMonths()],
    ...[3, 5, 8, 11].map((seed) => [`generated ${seed}`, fullPlant(seed)] as const),
  ] as const;
  for (const [name, document] of cases) {
    riskModel(document, { seed: 1, draws: 20 }, solver);
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
