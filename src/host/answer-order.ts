import { deserialize, serialize } from 'node:v8';
import { type EngineChoice, loadSolver, type Solver } from '../solver/choose.js';
import { digestOf } from './digest.js';
import type { Order, OrderReply } from './order.js';
import { patched } from './patched.js';
import { QUESTIONS } from './questions/all.js';
import type { Asked, Progress, Question, QuestionHooks, Reply, Share } from './questions/question.js';
import { stoppableSolver } from './stoppable-solver.js';

/** What is asked while an answer is worked out in this thread. */
export interface Watch {
  readonly cancelled: () => boolean;
  readonly onProgress: (progress: Progress) => void;
}

/** One of the parts of an order. */
export interface OrderPart {
  readonly order: Order;
  readonly share: Share;
}

/** What was found of a part, for joinParts alone to read; or the reply, where all parts would say the same. */
export type PartReply =
  | { readonly kind: 'part'; readonly findings: Uint8Array; readonly engines: Engines }
  | { readonly kind: 'reply'; readonly reply: OrderReply };

type Engines = Extract<OrderReply, { readonly engines: unknown }>['engines'];

/**
 * Answers an order in this thread. The time limit is kept by asking, so that the answer may end a little after.
 *
 * @throws RangeError where there is no such question.
 */
export async function answerOrder(order: Order, watch: Watch): Promise<OrderReply> {
  const question = questionOf(order);
  const asked = askedOf(order);
  if ('kind' in asked) return asked;
  const solver = await solverOf(order);
  return written(question.ask(asked, order.options, solver, hooksOf(order, watch)), enginesOf(solver));
}

/** Whether several threads may work on an order. */
export function hasParts({ question }: Order): boolean {
  return QUESTIONS.some(({ name, parts }) => name === question && parts !== undefined);
}

/** Works on one part of an order in this thread. @throws RangeError where the question has no parts. */
export async function answerPart({ order, share }: OrderPart, watch: Watch): Promise<PartReply> {
  const asked = askedOf(order);
  if ('kind' in asked) return { kind: 'reply', reply: asked };
  const solver = await solverOf(order);
  const engines = enginesOf(solver);
  const part = partsOf(order).find(asked, order.options, solver, hooksOf(order, watch), share);
  if (part.kind !== 'part') return { kind: 'reply', reply: written(part, engines) };
  return { kind: 'part', findings: serialize(part.findings), engines };
}

/** Puts an answer together from its parts, at least one. */
export function joinParts({ order, parts }: { order: Order; parts: readonly PartReply[] }): OrderReply {
  const asked = askedOf(order);
  if ('kind' in asked) return asked;
  const found = parts.filter((part) => part.kind === 'part');
  const findings = found.map((part) => deserialize(part.findings) as unknown);
  return written(partsOf(order).join(asked, order.options, findings), found[0].engines);
}

function questionOf({ question: name }: Order): Question {
  const found = QUESTIONS.find((question) => question.name === name);
  if (found === undefined) throw new RangeError(`there is no question ${name}`);
  return found;
}

function partsOf(order: Order): NonNullable<Question['parts']> {
  const { parts } = questionOf(order);
  if (parts === undefined) throw new RangeError(`${order.question} has no parts`);
  return parts;
}

function askedOf({ scenario, patch }: Order): Asked | OrderReply {
  const subject = patched(scenario, patch);
  if (!subject.ok) return { kind: 'problems', problems: subject.problems };
  const { document } = subject;
  const scenarioDigest = digestOf(document);
  return scenarioDigest === undefined ? uncanonical() : { document, scenarioDigest };
}

function hooksOf({ seconds }: Order, { cancelled, onProgress }: Watch): QuestionHooks {
  const end = performance.now() + seconds * 1000;
  return { seconds, cancelled: () => cancelled() || performance.now() > end, onProgress };
}

function enginesOf({ engines }: Solver): Engines {
  return engines.map(({ name, version }) => ({ name, version }));
}

function written(reply: Reply, engines: Engines): OrderReply {
  return 'document' in reply ? { kind: reply.kind, text: JSON.stringify(reply.document), engines } : reply;
}

const solvers = new Map<EngineChoice, Promise<Solver>>();

/** Loaded once a thread. */
function solverOf(order: Order): Promise<Solver> {
  const { engine: choice } = order;
  if (questionOf(order).keepsBest !== true) return stoppableSolver(choice);
  const known = solvers.get(choice) ?? loadSolver(choice);
  solvers.set(choice, known);
  return known;
}

function uncanonical(): OrderReply {
  const message = 'The scenario: a number is beyond what JSON can carry, or text holds half a character.';
  const remedy = 'Write finite numbers and whole Unicode characters.';
  return { kind: 'problems', problems: [{ pointer: '', code: 'malformed', message, remedy }] };
}
