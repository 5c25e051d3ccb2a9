import type { MessagePort } from 'node:worker_threads';
import { readJson } from '../scenario/read-json.js';
import { answerOrder } from './answer-order.js';
import { checkScenario } from './check-scenario.js';
import type { Order, OrderReply } from './order.js';
import type { Progress } from './questions/question.js';

/** A task for a solving thread. `stopped` holds one flag: 1 asks it to stop. */
export interface OrderTask {
  readonly order: Order;
  readonly stopped: Int32Array;
  readonly port: MessagePort;
}

export type TaskMessage =
  | { readonly kind: 'started' }
  | { readonly kind: 'progress'; readonly progress: Progress };

/** The program of the worker threads: its functions are what the pools run by name. */
export async function answer({ order, stopped, port }: OrderTask): Promise<OrderReply> {
  const post = (message: TaskMessage) => port.postMessage(message);
  post({ kind: 'started' });
  try {
    return await answerOrder(order, {
      cancelled: () => Atomics.load(stopped, 0) === 1,
      onProgress: (progress) => post({ kind: 'progress', progress }),
    });
  } finally {
    port.close();
  }
}

export const read = readJson;

export const check = checkScenario;
