import { readJson } from '../scenario/read-json.js';
import { answerOrder, answerPart, joinParts, type OrderPart, type PartReply } from './answer-order.js';
import { checkScenario } from './check-scenario.js';
import { lowerOwnPriority } from './lower-priority.js';
import type { Order, OrderReply } from './order.js';
import type { Progress } from './questions/question.js';
import { type ThreadTask, workOn } from './thread-task.js';

// Requests that are answered at once go first.
lowerOwnPriority();

/** What the threads of a runner run: its functions are called by name. */
export function answer(task: ThreadTask<Order>): Promise<OrderReply> {
  return workOn<Order, Progress, OrderReply>(task, answerOrder);
}

export function part(task: ThreadTask<OrderPart>): Promise<PartReply> {
  return workOn<OrderPart, Progress, PartReply>(task, answerPart);
}

export const join = joinParts;

export const read = readJson;

export const check = checkScenario;
