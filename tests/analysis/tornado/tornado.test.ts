import { beforeAll, describe, expect, it } from 'vitest';
import { planMonths } from '../../../src/analysis/monthly-plan.js';
import { tornado, withinShare } from '../../../src/analysis/tornado/tornado.js';
import { variantOf } from '../../../src/analysis/variant/read-variant.js';
import { loadSolver, type Solver } from '../../../src/solver/choose.js';
import { generateScenario } from '../../generate/plant.js';

describe('a tornado', () => {
  let solver: Solver;
  beforeAll(async () => {
    solver = await loadSolver('highs');
  });

  const document = generateScenario(2, { months: 2, features: { response: false, otherBases: false } });
  const [outlet] = document.outlets!.filter(({ price }) => typeof price === 'number');
  const items = [
    withinShare([`/feeds/${document.feeds[0].id}/tippingFee`], 0.2),
    withinShare([`/outlets/${outlet.id}/price`], 0.2),
    withinShare(
      document.operation.windows.map(({ id }) => `/operation/windows/${id}/powerPrice`),
      0.2,
    ),
    {
      parameter: { pointers: [`/feeds/${document.feeds[0].id}/available`], kind: 'factor' as const },
      low: 0.01,
      high: 1.2,
    },
  ];

  it('ranks by swing, values each side as a fresh plan does, and the plan kept never earns more', () => {
    const answer = tornado(document, items, solver);
    if (answer.status !== 'complete') throw new Error(answer.status);
    const swings = answer.bars.map(({ swing }) => swing ?? -1);
    expect(swings).toEqual([...swings].sort((a, b) => b - a));
    const bar = answer.bars.find(({ pointers }) => pointers[0].includes('/outlets/'))!;
    const fresh = variantOf(document, {
      kind: 'json patch',
      operations: [
        { op: 'replace', path: `/outlets/${outlet.id}/price`, value: (outlet.price as number) * 1.2 },
      ],
    });
    const plan = fresh.ok ? planMonths(fresh.plant, solver) : undefined;
    if (plan?.status !== 'optimal' || bar.high.status !== 'planned') throw new Error('no plan');
    expect(bar.high.value).toBeCloseTo(plan.plan.statement.presentValue, 4);
    for (const { low, high } of answer.bars) {
      for (const side of [low, high])
        if (side.status === 'planned') expect(side.lossUnchanged ?? 0).toBeGreaterThanOrEqual(0);
    }
  });

  it('says which side has no valid scenario, and ranks it last', () => {
    const answer = tornado(document, items, solver);
    if (answer.status !== 'complete') throw new Error(answer.status);
    const last = answer.bars[answer.bars.length - 1];
    expect([last.low.status, last.swing]).toEqual(['invalid', undefined]);
  });

  it('stopped, keeps the bars that are done', () => {
    let bars = 0;
    const answer = tornado(document, items, solver, {
      cancelled: () => bars >= 1,
      onProgress: () => {
        bars += 1;
      },
    });
    if (answer.status !== 'partial') throw new Error(answer.status);
    expect(answer.bars).toHaveLength(1);
  });

  it('names every pointer that leads nowhere', () => {
    const answer = tornado(document, [withinShare(['/outlets/nobody/price'], 0.1)], solver);
    expect(answer.status === 'problems' ? answer.problems.map(({ pointer }) => pointer) : []).toEqual([
      '/outlets/nobody/price',
    ]);
  });
});
