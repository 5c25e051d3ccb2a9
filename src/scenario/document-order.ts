import type { Problem } from '../issue/problem.js';
import { parsePointer } from './pointer.js';

/**
 * Problems in the order in which their places stand in the document: a place before what is inside it, a
 * key that is absent after those that are there, problems of one place in the order given.
 */
export function inDocumentOrder(document: unknown, problems: readonly Problem[]): Problem[] {
  return problems
    .map((problem) => ({ problem, rank: rankOf(document, problem.pointer) }))
    .sort((a, b) => compare(a.rank, b.rank))
    .map(({ problem }) => problem);
}

interface Position {
  readonly index: number;
  readonly token: string;
}

function rankOf(document: unknown, pointer: string): Position[] {
  let value = document;
  return (parsePointer(pointer) ?? []).map((token) => {
    const keys = typeof value === 'object' && value !== null ? Object.keys(value) : [];
    const index = keys.indexOf(token);
    value = index < 0 ? undefined : (value as Record<string, unknown>)[token];
    return { index: index < 0 ? Number.POSITIVE_INFINITY : index, token };
  });
}

function compare(a: readonly Position[], b: readonly Position[]): number {
  for (let i = 0; i < Math.min(a.length, b.length); i++) {
    if (a[i].index !== b[i].index) return a[i].index - b[i].index;
    if (a[i].token !== b[i].token) return a[i].token < b[i].token ? -1 : 1;
  }
  return a.length - b.length;
}
