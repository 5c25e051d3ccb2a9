import type { Highs } from 'highs';
import type { LinearProgram } from '../program/linear-program.js';
import { type Guard, isTrap } from './highs/failure.js';
import { HighsSession } from './highs/session.js';
import { type Engine, EngineFailure, type Session } from './port.js';

/**
 * HiGHS as WebAssembly (npm `highs`): one instance in memory, one model a session. After a trap in the
 * WebAssembly the instance is dropped and a new one loads by itself; until it is there, `open` throws
 * EngineFailure. `ready` waits for it.
 */
export interface HighsEngine extends Engine {
  ready(): Promise<void>;
}

/** Loads the WebAssembly (tens of milliseconds). */
export async function loadHighs(): Promise<HighsEngine> {
  const highs = await import('highs');
  // The package says that its declarations are CommonJS; at run time the import has a default export.
  const instantiate = highs.default as unknown as typeof highs.default.default;
  return highsEngine(await instantiate(), instantiate);
}

/** An engine over a loaded instance; `instantiate` replaces it after a trap. */
export function highsEngine(first: Highs, instantiate: () => Promise<Highs>): HighsEngine {
  let instance: Highs | undefined = first;
  let reload: Promise<void> = Promise.resolve();

  function drop(broken: Highs): void {
    if (instance !== broken) return;
    instance = undefined;
    reload = instantiate().then((fresh) => {
      instance = fresh;
    });
    // Whoever calls ready() hears of it; nobody calling must not end the process.
    reload.catch(() => {});
  }

  return {
    name: 'highs',
    version: first.version.string,
    ready: () => reload,
    open(program: LinearProgram): Session {
      const highs = instance;
      if (highs === undefined) throw new EngineFailure('highs', 'the engine broke and is being loaded again');
      const guard = guardFor(highs, drop);
      return guard('open', () => new HighsSession(highs, program, guard));
    },
  };
}

/** Turns what the package throws into an EngineFailure, and drops the instance after a trap. */
function guardFor(highs: Highs, drop: (broken: Highs) => void): Guard {
  return (action, call) => {
    try {
      return call();
    } catch (error) {
      if (isTrap(error)) drop(highs);
      else if (!(error instanceof highs.errors.HighsError)) throw error;
      throw new EngineFailure('highs', `${action}: ${error.message}`);
    }
  };
}
