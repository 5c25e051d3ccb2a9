import { answerOrder } from '../../src/host/answer-order.js';
import { checkScenario } from '../../src/host/check-scenario.js';
import type { QuestionRunner } from '../../src/host/question-runner.js';
import { readJson } from '../../src/scenario/read-json.js';

/** Answers in this thread: the same work as in worker threads, without any. */
export const inProcessRunner: QuestionRunner = {
  async answer(order, { onStart, onProgress, signal } = {}) {
    onStart?.();
    return answerOrder(order, {
      cancelled: () => signal?.aborted === true,
      onProgress: (progress) => onProgress?.(progress),
    });
  },
  read: async (text) => readJson(text),
  check: async (subject) => checkScenario(subject),
  close: async () => {},
};
