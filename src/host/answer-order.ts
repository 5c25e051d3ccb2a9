import { patchDocument } from '../analysis/variant/json-patch.js';
import { mergePatch } from '../analysis/variant/merge-patch.js';
import { type EngineChoice, loadSolver, type Solver } from '../solver/choose.js';
import { digestOf } from './digest.js';
import type { Order, OrderReply } from './order.js';
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
  const patched = patch(order.scenario, order.patch);
  if (!patched.ok) return { kind: 'problems', problems: patched.problems };
  const { document } = patched;
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

/** A scenario with a patch; as it is without one. */
export function patch(scenario: unknown, change: unknown): ReturnType<typeof patchDocument> {
  if (change === undefined) return { ok: true, document: scenario };
  if (Array.isArray(change)) return patchDocument(scenario, change);
  return { ok: true, document: mergePatch(scenario, change) };
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
