import type { Problem } from '../../issue/problem.js';
import type { Solver } from '../../solver/choose.js';
import { figuresOf, type Parameter, withParameter } from '../variant/parameter.js';
import { type SweepHooks, type SweepRequest, sweep } from './sweep.js';
import type { SweepAnswer } from './sweep-answer.js';

export interface SweepMapRequest extends SweepRequest {
  readonly by: {
    readonly parameter: Parameter;
    readonly from: number;
    readonly to: number;
    readonly rows: number;
  };
}

export type SweepMapOutcome =
  | { readonly status: 'complete' | 'partial'; readonly rows: readonly { by: number; answer: SweepAnswer }[] }
  | { readonly status: 'problems'; readonly problems: readonly Problem[] };

/** Two numbers at once: a sweep of the first for each of some evenly spaced values of the second. */
export function sweepMap(
  document: unknown,
  { by, ...request }: SweepMapRequest,
  solver: Solver,
  hooks: SweepHooks & { readonly onRow?: (done: number) => void } = {},
): SweepMapOutcome {
  const found = figuresOf(document, by.parameter);
  if (!found.ok) return { status: 'problems', problems: found.problems };
  const rows: { by: number; answer: SweepAnswer }[] = [];
  for (let i = 0; i < by.rows && hooks.cancelled?.() !== true; i++) {
    const at = by.rows === 1 ? by.from : by.from + (i * (by.to - by.from)) / (by.rows - 1);
    const answer = sweep(withParameter(document, by.parameter, found.figures, at), request, solver, hooks);
    if (answer.status === 'problems') return answer;
    rows.push({ by: at, answer });
    hooks.onRow?.(rows.length);
  }
  const isWhole = rows.length === by.rows && rows.every(({ answer }) => answer.status === 'complete');
  return { status: isWhole ? 'complete' : 'partial', rows };
}
