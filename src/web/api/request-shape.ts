import type * as z from 'zod';
import type { Problem, ProblemCode } from '../../issue/problem.js';
import { formatPointer } from '../../scenario/pointer.js';
import { Refusal } from './refusal.js';

/**
 * A request's document in its shape.
 *
 * @throws Refusal 422 with every problem; pointers lead into the request.
 */
export function requestShape<T>(schema: z.ZodType<T>, document: unknown): T {
  // A parser of shapes may pass over this key, which must not be read.
  if (typeof document === 'object' && document !== null && Object.hasOwn(document, '__proto__')) {
    throw refusedFor([problem('/__proto__', 'unknown key', 'The key __proto__ is not read')]);
  }
  const parsed = schema.safeParse(document);
  if (parsed.success) return parsed.data;
  throw refusedFor(parsed.error.issues.flatMap(problemsOf));
}

function refusedFor(problems: readonly Problem[]): Refusal {
  return new Refusal('invalid-request', 'The request has members that are not as they should be.', {
    problems,
  });
}

function problemsOf(issue: z.core.$ZodIssue): Problem[] {
  const path = issue.path.map((key) => (typeof key === 'number' ? key : String(key)));
  if (issue.code === 'unrecognized_keys') {
    return issue.keys.map((key) =>
      problem(formatPointer([...path, key]), 'unknown key', 'There is no such member here'),
    );
  }
  return [problem(formatPointer(path), CODES[issue.code] ?? 'malformed', issue.message.replace(/\.$/, ''))];
}

const CODES: Readonly<Partial<Record<z.core.$ZodIssue['code'], ProblemCode>>> = {
  invalid_type: 'wrong type',
  too_big: 'out of range',
  too_small: 'out of range',
};

function problem(pointer: string, code: ProblemCode, message: string): Problem {
  return {
    pointer,
    code,
    message: `${message}.`,
    remedy: 'The shape of the request stands in /openapi.json.',
  };
}
