import type { JsonReading } from '../scenario/read-json.js';
import type { checkScenario } from './check-scenario.js';
import type { Check, Order, OrderHooks, OrderReply } from './order.js';

/** Answers questions and reads scenarios away from the thread that asks. */
export interface QuestionRunner {
  /**
   * @throws RunnerFailure where no answer can come.
   */
  answer(order: Order, hooks?: OrderHooks): Promise<OrderReply>;
  /** @throws RunnerFailure */
  read(text: string): Promise<JsonReading>;
  /** @throws RunnerFailure */
  check(subject: Parameters<typeof checkScenario>[0]): Promise<Check>;
  /** Lets go of all threads. */
  close(): Promise<void>;
}

/**
 * `full`: come again later. `cancelled`: before it was begun. `overdue`: stopped by force past its time.
 * `ended`: the thread died of it. `closed`: the runner is.
 */
export class RunnerFailure extends Error {
  override readonly name = 'RunnerFailure';
  constructor(
    readonly reason: 'full' | 'cancelled' | 'overdue' | 'ended' | 'closed',
    options?: ErrorOptions,
  ) {
    super(`no answer: ${reason}`, options);
  }
}
