import { MessageChannel, type MessagePort, receiveMessageOnPort, Worker } from 'node:worker_threads';
import { hasIntegers, type LinearProgram } from '../program/linear-program.js';
import { ColdSession } from '../solver/cold-session.js';
import { type Engine, type EngineAnswer, EngineFailure, type SolveLimits } from '../solver/port.js';

/** What the thread of an engine apart is started with: flag ANSWERED counts answers, STOP asks the solve to stop. */
export interface SolveThreadData {
  readonly port: MessagePort;
  readonly flags: Int32Array<SharedArrayBuffer>;
}

/** One program to solve, without its keys, which the engine has no use for. */
export interface SolveOrder {
  readonly program: LinearProgram;
  readonly limits: Pick<SolveLimits, 'seconds' | 'gap' | 'absoluteGap' | 'start'>;
}

export type SolveReply =
  | { readonly kind: 'answer'; readonly answer: EngineAnswer }
  | { readonly kind: 'failure'; readonly detail: string };

export const ANSWERED = 0;
export const STOP = 1;

/** Milliseconds between looks at whether the caller wants the solve to stop. */
const LOOK = 20;
/** Milliseconds in which a solve that is asked to stop may give its best point, before its thread is ended. */
const GRACE = 80;

/**
 * An engine whose whole-number solves run in a thread of their own, for which this one waits. Inside its heuristics an
 * engine may not ask for seconds whether it is to stop; a thread can be ended at any time. Linear programs are solved
 * here.
 *
 * @param worker the program of solve-worker.js, which solves with the same engine
 */
export function engineApart(engine: Engine, worker: URL): Engine {
  const thread = new SolveThread(engine, worker);
  return {
    ...engine,
    open: (program) =>
      hasIntegers(program)
        ? new ColdSession(program, (current, limits) =>
            thread.solve(orderOf(current, limits), limits.cancelled ?? (() => false)),
          )
        : engine.open(program),
  };
}

class SolveThread {
  private running: { readonly worker: Worker; readonly data: SolveThreadData } | undefined;

  constructor(
    private readonly engine: Engine,
    private readonly program: URL,
  ) {}

  /** @throws EngineFailure */
  solve(order: SolveOrder, cancelled: () => boolean): EngineAnswer {
    const { port, flags } = this.started();
    const before = Atomics.load(flags, ANSWERED);
    Atomics.store(flags, STOP, 0);
    port.postMessage(order);
    for (let isStopping = false; Atomics.load(flags, ANSWERED) === before; ) {
      Atomics.wait(flags, ANSWERED, before, isStopping ? GRACE : LOOK);
      if (Atomics.load(flags, ANSWERED) !== before) break;
      if (isStopping) {
        this.end();
        return { reason: 'cancelled' };
      }
      isStopping = cancelled();
      if (isStopping) Atomics.store(flags, STOP, 1);
    }
    const reply = receiveMessageOnPort(port)?.message as SolveReply;
    if (reply.kind === 'failure') throw new EngineFailure(this.engine.name, reply.detail);
    return reply.answer;
  }

  private started(): SolveThreadData {
    if (this.running !== undefined) return this.running.data;
    const { port1, port2 } = new MessageChannel();
    const flags = new Int32Array(new SharedArrayBuffer(2 * Int32Array.BYTES_PER_ELEMENT));
    const workerData: SolveThreadData = { port: port2, flags };
    const worker = new Worker(this.program, { workerData, transferList: [port2] });
    worker.unref();
    port1.unref();
    this.running = { worker, data: { port: port1, flags } };
    return this.running.data;
  }

  private end(): void {
    void this.running?.worker.terminate();
    this.running?.data.port.close();
    this.running = undefined;
  }
}

function orderOf(program: LinearProgram, { seconds, gap, absoluteGap, start }: SolveLimits): SolveOrder {
  const columnKeys = Array.from(program.columnKeys.keys());
  const rowKeys = Array.from(program.rowKeys.keys());
  return { program: { ...program, columnKeys, rowKeys }, limits: { seconds, gap, absoluteGap, start } };
}
