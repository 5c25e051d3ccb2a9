import type { JsonReading } from '../scenario/read-json.js';
import type { checkScenario } from './check-scenario.js';
import type { Check, Order, OrderHooks, OrderReply } from './order.js';

/** Answers questions and reads scenarios away from the thread that asks. */
export interface QuestionRunner {
  /**
   * @throws ThreadFailure where no answer can come.
   */
  answer(order: Order, hooks?: OrderHooks): Promise<OrderReply>;
  /** @throws ThreadFailure */
  read(text: string): Promise<JsonReading>;
  /** @throws ThreadFailure */
  check(subject: Parameters<typeof checkScenario>[0]): Promise<Check>;
  /** Lets go of all threads. */
  close(): Promise<void>;
}
