import type { ApiContext, HeaderParameter } from './route.js';

export const PREFER_HEADER: HeaderParameter = {
  name: 'Prefer',
  description:
    '`respond-async`: answer with a job at once. `wait=20`: wait so many seconds first (RFC 7240).',
};

/** How long a client would wait for an answer. */
export interface Waiting {
  readonly seconds: number;
  /** What of the client's wish was followed; absent where it had none. */
  readonly applied?: string;
}

/**
 * Reads `Prefer` (RFC 7240); what cannot be read is passed over, as the standard has it.
 *
 * @param usual seconds where the client says nothing
 */
export function waitingOf(context: ApiContext, usual: number, longest: number): Waiting {
  const wishes = (context.req.header('Prefer') ?? '').split(',').map((wish) => wish.trim().toLowerCase());
  if (wishes.includes('respond-async')) return { seconds: 0, applied: 'respond-async' };
  const [, digits] =
    wishes.map((wish) => /^wait\s*=\s*"?(\d{1,5})"?$/.exec(wish)).find((match) => match !== null) ?? [];
  if (digits === undefined) return { seconds: usual };
  const seconds = Math.min(Number(digits), longest);
  return { seconds, applied: `wait=${seconds}` };
}
