import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { evaluateDraws } from '../../src/analysis/risk/evaluate-draws.js';
import { programOfDraw, riskModel } from '../../src/analysis/risk/risk-model.js';
import { certify } from '../../src/program/certificate.js';
import type { Scenario } from '../../src/scenario/schema/scenario.js';
import { loadSolver } from '../../src/solver/choose.js';
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
 * in the same warmed process: arrays in, basis cleared, certified too. One thread on both sides.
 */
it('a thousand draws against a thousand cold solves', async () => {
  const solver = await loadSolver('highs');
  const engine = solver.engines[0];
  const rows: Record<string, string | number>[] = [];
  const cases = [
    ['shipped', linearTwelveMonths()],
    ...[3, 5, 8, 11].map((seed) => [`generated ${seed}`, fullPlant(seed)] as const),
  ] as const;
  for (const [name, document] of cases) {
    const found = riskModel(document, { seed: 7, draws: DRAWS }, solver);
    if (!found.ok || found.model.changes === undefined) throw new Error('not one by one on straight lines');
    const { model } = found;
    const { changes } = found.model;
    const memory = process.memoryUsage().rss;
    const warm = elapsed(() => model.paths.flatMap((path) => evaluateDraws(model, path, solver)));
    const grown = process.memoryUsage().rss - memory;
    const values = new Map(
      warm.result.map(({ draw, outcome }) => [draw, outcome.kind === 'planned' ? outcome : undefined]),
    );
    let worst = 0;
    const cold = elapsed(() => {
      for (let draw = 0; draw < DRAWS; draw += 1) {
        const program = programOfDraw(model, changes, model.factors[draw]);
        const session = engine.open(program);
        const { primal, dual } = session.solve();
        session.close();
        const mine = values.get(draw);
        if (primal === undefined || dual === undefined || mine === undefined) continue;
        const { objective } = certify(program, { primal, rowDual: dual.rowDual });
        worst = Math.max(worst, Math.abs(objective - mine.value) / mine.scale);
      }
    });
    rows.push({
      case: name,
      columns: model.expected.program.cost.length,
      'ms a draw': warm.ms / DRAWS,
      'ms cold': cold.ms / DRAWS,
      times: cold.ms / warm.ms,
      'worst difference': worst.toExponential(1),
      'MB grown': grown / 2 ** 20,
    });
    expect(worst).toBeLessThan(1e-9);
  }
  printTable(`${DRAWS} draws`, rows);
});

function elapsed<T>(call: () => T): { readonly result: T; readonly ms: number } {
  const before = process.cpuUsage();
  const result = call();
  const { user, system } = process.cpuUsage(before);
  return { result, ms: (user + system) / 1000 };
}
