import { applyPatch, type Operation } from 'rfc6902';
import type { Problem } from '../../issue/problem.js';
import { formatPointer, parsePointer, resolvePointer } from '../../scenario/pointer.js';

export type PatchedDocument =
  | { readonly ok: true; readonly document: unknown }
  | { readonly ok: false; readonly problems: readonly Problem[] };

const OPERATIONS: ReadonlySet<unknown> = new Set(['add', 'remove', 'replace', 'move', 'copy', 'test']);

/**
 * A JSON Patch (RFC 6902) applied to a document, operation after operation; an id may stand in place of a list
 * position in `path` and `from`. All or nothing: the first operation that cannot be applied is the answer. The
 * document is left as it is.
 */
export function patchDocument(document: unknown, operations: unknown): PatchedDocument {
  if (!Array.isArray(operations)) {
    return refused('', 'A JSON Patch is a list of operations', 'Write [{ "op": "replace", … }].');
  }
  const copy: unknown = structuredClone(document);
  for (const [i, operation] of operations.entries()) {
    const problem = applyOne(copy, operation, i);
    if (problem !== undefined) return { ok: false, problems: [problem] };
  }
  return { ok: true, document: copy };
}

/** Changes the document; what is wrong with the operation, if anything. */
function applyOne(document: unknown, operation: unknown, position: number): Problem | undefined {
  const where = `Operation ${position + 1} of the patch`;
  if (!isOperation(operation)) {
    return problem('', `${where} is none of RFC 6902`, 'Give "op", "path" and what the operation needs.');
  }
  const path = positions(document, operation.path);
  const from = 'from' in operation ? positions(document, operation.from) : '';
  if (path === undefined || from === undefined) {
    const bad = path === undefined ? operation.path : (operation as { from: string }).from;
    return problem(bad, `${where} names ${bad}, which leads nowhere`, 'Check the pointer.');
  }
  const translated = { ...operation, path, ...('from' in operation ? { from } : {}) };
  const [error] = applyPatch(document, [structuredClone(translated) as Operation]);
  if (error === null) return undefined;
  const reason =
    error.name === 'TestError' ? 'does not find the value that it tests for' : 'cannot be applied';
  return problem(path, `${where} (${operation.op} ${operation.path}) ${reason}`, 'Check path and value.');
}

/** The pointer with positions in place of ids. The last token may name what is not there yet. */
function positions(document: unknown, pointer: string): string | undefined {
  const whole = resolvePointer(document, pointer);
  if (whole !== undefined) return formatPointer(whole.path);
  const tokens = parsePointer(pointer);
  if (tokens === undefined || tokens.length === 0) return undefined;
  const parent = resolvePointer(document, formatPointer(tokens.slice(0, -1)));
  return parent === undefined ? undefined : formatPointer([...parent.path, tokens[tokens.length - 1]]);
}

function isOperation(value: unknown): value is Operation {
  if (typeof value !== 'object' || value === null) return false;
  const { op, path, from } = value as Record<string, unknown>;
  if (!OPERATIONS.has(op) || typeof path !== 'string') return false;
  if (op === 'move' || op === 'copy') return typeof from === 'string';
  return op === 'remove' || 'value' in value;
}

function refused(pointer: string, message: string, remedy: string): PatchedDocument {
  return { ok: false, problems: [problem(pointer, message, remedy)] };
}

function problem(pointer: string, message: string, remedy: string): Problem {
  return { pointer, code: 'malformed', message: `${message}.`, remedy };
}
