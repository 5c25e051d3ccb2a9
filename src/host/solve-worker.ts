import { workerData } from 'node:worker_threads';
import { loadHighs } from '../solver/highs.js';
import { EngineFailure, solveOnce } from '../solver/port.js';
import { ANSWERED, type SolveOrder, type SolveReply, type SolveThreadData, STOP } from './engine-apart.js';

/** The program of the thread of an engine apart: one order after the other. */
const { port, flags } = workerData as SolveThreadData;
const engine = await loadHighs();

port.on('message', (order: SolveOrder) => {
  port.postMessage(replyTo(order));
  Atomics.add(flags, ANSWERED, 1);
  Atomics.notify(flags, ANSWERED);
});

function replyTo({ program, limits }: SolveOrder): SolveReply {
  const cancelled = () => Atomics.load(flags, STOP) === 1;
  try {
    return { kind: 'answer', answer: solveOnce(engine, program, { ...limits, cancelled }) };
  } catch (error) {
    const detail = error instanceof EngineFailure ? error.detail : String(error);
    return { kind: 'failure', detail };
  }
}
