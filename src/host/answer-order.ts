import { type EngineChoice, loadSolver, type Solver } from '../solver/choose.js';
import { digestOf } from './digest.js';
import type { Order, OrderReply } from './order.js';
import { patched } from './patched.js';
import { QUESTIONS } from './questions/all.js';
import type { Progress } from './questions/question.js';

/** What is asked while an answer is worked out in this thread. */
export interface Watch {
  readonly cancelled: () => boolean;
  readonly onProgress: (progress: Progress) => void;
}

/**
 * Answers an order in this thread. The time limit is kept by asking, so that the answer may end a little after.
 *
 * @throws RangeError where there is no such question.
 */
export async function answerOrder(order: Order, { cancelled, onProgress }: Watch): Promise<OrderReply> {
  const question = QUESTIONS.find(({ name }) => name === order.question);
  if (question === undefined) throw new RangeError(`there is no question ${order.question}`);
  const end = performance.now() + order.seconds * 1000;
  const subject = patched(order.scenario, order.patch);
  if (!subject.ok) return { kind: 'problems', problems: subject.problems };
  const { document } = subject;
  const scenarioDigest = digestOf(document);
  if (scenarioDigest === undefined) return uncanonical();
  const solver = await solverOf(order.engine);
  const reply = question.ask({ document, scenarioDigest }, order.options, solver, {
    seconds: order.seconds,
    cancelled: () => cancelled() || performance.now() > end,
    onProgress,
  });
  if (!('document' in reply)) return reply;
  const engines = solver.engines.map(({ name, version }) => ({ name, version }));
  return { kind: reply.kind, text: JSON.stringify(reply.document), engines };
}

const solvers = new Map<EngineChoice, Promise<Solver>>();

/** Loaded once a thread. */
function solverOf(choice: EngineChoice): Promise<Solver> {
  const known = solvers.get(choice);
  if (known !== undefined) return known;
  const loading = loadSolver(choice);
  solvers.set(choice, loading);
  return loading;
}

function uncanonical(): OrderReply {
  const message = 'The scenario: a number is beyond what JSON can carry, or text holds half a character.';
  const remedy = 'Write finite numbers and whole Unicode characters.';
  return { kind: 'problems', problems: [{ pointer: '', code: 'malformed', message, remedy }] };
}
