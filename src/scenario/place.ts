import type { Problem, ProblemCode } from '../issue/problem.js';
import { idOf, parsePointer } from './pointer.js';

/**
 * A problem at a place: its message opens with the place in words.
 *
 * @example problemAt(document, '/steps/2/yields/shares', 'yields', 'the yields add up to 0.98, not 1', …)
 *   // message: "steps[2] 'mill', yields.shares: the yields add up to 0.98, not 1."
 */
export function problemAt(
  document: unknown,
  pointer: string,
  code: ProblemCode,
  whatIsWrong: string,
  remedy: string,
): Problem {
  return {
    pointer,
    code,
    message: `${placeOf(document, pointer)}: ${whatIsWrong}.`,
    remedy: /[.?]$/.test(remedy) ? remedy : `${remedy}.`,
  };
}

/** The place to which a pointer leads, in words. @example placeOf(document, '/steps/2/wear') // "steps[2] 'mill', wear" */
export function placeOf(document: unknown, pointer: string): string {
  const tokens = parsePointer(pointer) ?? [];
  if (tokens.length === 0) return 'The document';
  let value: unknown = document;
  let place = '';
  let afterId = false;
  for (const token of tokens) {
    const inList = Array.isArray(value);
    value = childOf(value, token);
    const id = inList ? idOf(value) : undefined;
    if (inList) place += `[${token}]${id === undefined ? '' : ` '${id}'`}`;
    else place += `${place === '' ? '' : afterId ? ', ' : '.'}${token}`;
    afterId = id !== undefined;
  }
  return place;
}

/** A number as it is shown in a message, without the noise of binary fractions. */
export function shown(value: number): string {
  return String(Number(value.toPrecision(12)));
}

/** Names in a sentence. @example listed(['a', 'b', 'c'], 'or') // "a, b or c" */
export function listed(names: readonly string[], conjunction: 'and' | 'or'): string {
  if (names.length <= 1) return names.join('');
  return `${names.slice(0, -1).join(', ')} ${conjunction} ${names[names.length - 1]}`;
}

function childOf(value: unknown, key: string): unknown {
  if (typeof value !== 'object' || value === null || !Object.hasOwn(value, key)) return undefined;
  return (value as Record<string, unknown>)[key];
}
