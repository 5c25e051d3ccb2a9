import { digestOf } from '../../host/digest.js';
import type { Order } from '../../host/order.js';
import { Refusal } from './refusal.js';

export interface QuestionDigests {
  readonly question: string;
  readonly scenario: string;
  readonly patch?: string;
}

/**
 * What tells a question from all others, with the version of cutpoint that answers it.
 *
 * @throws Refusal 400 for what no JSON text can carry faithfully
 */
export function digestsOf(order: Order, version: string): QuestionDigests {
  const { scenario, patch, ...rest } = order;
  const own = { scenario: sure(scenario), ...(patch === undefined ? {} : { patch: sure(patch) }) };
  return { ...own, question: sure({ ...rest, ...own, version }) };
}

/** Of documents that are asked about again: they are never changed. */
const known = new WeakMap<object, string>();

function sure(value: unknown): string {
  const isKept = typeof value === 'object' && value !== null;
  const digest = (isKept ? known.get(value) : undefined) ?? digestOf(value);
  if (digest !== undefined && isKept) known.set(value, digest);
  if (digest !== undefined) return digest;
  throw new Refusal('malformed', 'A number is beyond what JSON can carry, or text holds half a character.');
}
