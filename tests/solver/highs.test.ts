import type { Highs, Model } from 'highs';
import { describe, expect, it } from 'vitest';
import { highsEngine, loadHighs } from '../../src/solver/highs.js';
import { EngineFailure, solveOnce } from '../../src/solver/port.js';
import { describeContract } from './contract.js';
import { hardKnapsacks } from './laws/hard-knapsacks.js';
import { programFrom } from './model-json.js';
import { denseProgram, randomFrom, randomProgram } from './random-program.js';

describeContract('HiGHS', loadHighs);

describe('HiGHS', () => {
  const program = randomProgram(12, { columns: 30, rows: 20 });

  it('is loaded again after a trap, and refuses to open anything until it is', async () => {
    const whole = await instance();
    const broken = withRun(whole, () => {
      throw Object.assign(new Error('unreachable'), { name: 'RuntimeError' });
    });
    const engine = highsEngine(broken, instance);
    const session = engine.open(program);
    expect(() => session.solve()).toThrow(new EngineFailure('highs', 'solve: unreachable'));
    expect(() => engine.open(program)).toThrow(EngineFailure);
    await engine.ready();
    expect(solveOnce(engine, program).reason).toBe('optimal');
  });

  it('says of a load that failed why, to whoever waits for it', async () => {
    const broken = withRun(await instance(), () => {
      throw Object.assign(new Error('unreachable'), { name: 'RuntimeError' });
    });
    const engine = highsEngine(broken, () => Promise.reject(new Error('no such file')));
    expect(() => solveOnce(engine, program)).toThrow(EngineFailure);
    await expect(engine.ready()).rejects.toThrow('no such file');
  });

  it.each([
    ['not set', 0],
    ['solve error', 4],
    ['iteration limit', 14],
    ['unknown', 15],
    ['one that it has never had', 99],
  ])('fails on a status that is no answer: %s', async (_, modelStatus) => {
    const engine = highsEngine(
      withRun(await instance(), () => ({ status: 0, warnings: [], modelStatus })),
      instance,
    );
    expect(() => solveOnce(engine, program)).toThrow(`highs: status ${modelStatus}`);
  });

  it.each([
    ['unbounded', 0],
    ['infeasible', -1],
  ])('settles by itself what may be unbounded or infeasible: %s', async (reason, upper) => {
    let runs = 0;
    const undecided = withRun(await instance(), (model) => {
      runs++;
      return runs <= 2 ? { status: 0, warnings: [], modelStatus: 9 } : model.run();
    });
    // max x, x unlimited, y ≥ 0 and y ≤ upper.
    const either = programFrom({
      sense: 'maximize',
      columns: { x: { cost: 1 }, y: {} },
      rows: { a: { upper, terms: { y: 1 } } },
    });
    expect(solveOnce(highsEngine(undecided, instance), either)).toEqual({ reason });
    expect(runs).toBe(3);
  });

  it('gives each solve of a session the whole time limit', async () => {
    const engine = await loadHighs();
    const dense = denseProgram(1, 120, 120);
    const random = randomFrom(1);
    const session = engine.open(dense);
    const solveChanged = (seconds: number) => {
      for (let j = 0; j < 120; j++) session.setCost(j, Math.floor(random() * 16) - 3);
      const started = performance.now();
      const { reason } = session.solve({ seconds });
      return { reason, seconds: (performance.now() - started) / 1000 };
    };
    solveChanged(60);
    const limit = 20 * Math.max(solveChanged(60).seconds, 0.005);
    for (let spent = 0; spent < 1.5 * limit; ) {
      const solved = solveChanged(limit);
      expect(solved.reason).toBe('optimal');
      spent += solved.seconds;
    }
    session.close();
  });

  it('does not swallow a mistake that is not the engine’s', async () => {
    const mistake = new TypeError('a mistake of ours');
    const engine = highsEngine(
      withRun(await instance(), () => {
        throw mistake;
      }),
      instance,
    );
    expect(() => solveOnce(engine, program)).toThrow(mistake);
  });

  it('gives its memory back when a session closes', async () => {
    const highs = await instance();
    const engine = highsEngine(highs, instance);
    solveOnce(engine, program);
    const before = highs.memoryBytes;
    for (let i = 0; i < 300; i++) solveOnce(engine, program);
    expect(highs.memoryBytes).toBe(before);
  });

  it('goes on from a whole-number point that it is given, and minds none that is infeasible', async () => {
    const engine = await loadHighs();
    const hard = hardKnapsacks();
    const worth = (point: Float64Array) => point.reduce((sum, taken, j) => sum + taken * hard.cost[j], 0);
    const { primal: start } = solveOnce(engine, hard, { seconds: 3 });
    const best: (number | undefined)[] = [];
    const onProgress = (progress: { best?: number }) => best.push(progress.best);
    const { primal } = solveOnce(engine, hard, { seconds: 0.3, start, onProgress });
    expect(worth(primal!)).toBeGreaterThanOrEqual(worth(start!) - 1e-6);
    expect(best[0]).toBeGreaterThanOrEqual(worth(start!) - 1e-6);
    const everything = new Float64Array(hard.cost.length).fill(1);
    const other = solveOnce(engine, hard, { seconds: 0.3, start: everything });
    expect(worth(other.primal!)).toBeLessThanOrEqual(worth(everything) - 1);
  });

  it('has no basis before a solve, nor after one with whole numbers', async () => {
    const engine = await loadHighs();
    const session = engine.open(program);
    expect(session.basis()).toBeUndefined();
    session.close();
    const whole = engine.open(hardKnapsacks());
    whole.solve({ seconds: 0.2 });
    expect(whole.basis()).toBeUndefined();
    whole.close();
  });

  it('tells with each best point how far it is from the bound', async () => {
    const engine = await loadHighs();
    let nearest = Number.POSITIVE_INFINITY;
    solveOnce(engine, hardKnapsacks(), {
      onProgress: ({ gap }) => {
        nearest = gap ?? nearest;
      },
      cancelled: () => nearest < 0.2,
      seconds: 20,
    });
    expect(nearest).toBeLessThan(0.2);
  });
});

async function instance(): Promise<Highs> {
  const highs = await import('highs');
  return (highs.default as unknown as typeof highs.default.default)();
}

/** The instance with another way to run its models. */
function withRun(highs: Highs, run: (model: Model) => unknown): Highs {
  return overriding(highs, {
    createModel: (source: Parameters<Highs['createModel']>[0]): Model => {
      const model = highs.createModel(source);
      return overriding<Model>(model, { run: () => run(model) });
    },
  });
}

function overriding<T extends object>(target: T, members: Readonly<Record<string, unknown>>): T {
  return new Proxy(target, {
    get(object, name) {
      if (typeof name === 'string' && name in members) return members[name];
      const member = Reflect.get(object, name, object);
      return typeof member === 'function' ? member.bind(object) : member;
    },
  });
}
