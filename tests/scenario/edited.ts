import { checkDocument } from '../../src/scenario/parse.js';
import { parsePointer } from '../../src/scenario/pointer.js';
import { sampleScenario } from './sample.js';

/** Marks a key or a list entry that is to be deleted. */
export const DELETED = Symbol('deleted');

/** The sample with other values at some JSON Pointers (by position); a position at a list's end appends. */
export function edited(values: Readonly<Record<string, unknown>>): unknown {
  const document: unknown = sampleScenario();
  for (const [pointer, value] of Object.entries(values)) {
    const tokens = parsePointer(pointer)!;
    const parent = tokens
      .slice(0, -1)
      .reduce<unknown>((inner, token) => (inner as Record<string, unknown>)[token], document);
    const key = tokens[tokens.length - 1];
    if (value !== DELETED) (parent as Record<string, unknown>)[key] = value;
    else if (Array.isArray(parent)) parent.splice(Number(key), 1);
    else delete (parent as Record<string, unknown>)[key];
  }
  return document;
}

/** What is wrong with a document, as `pointer: code`. */
export function wrongIn(document: unknown): string[] {
  const checked = checkDocument(document);
  return checked.ok ? [] : checked.problems.map(({ pointer, code }) => `${pointer}: ${code}`);
}

/** What is wrong with the sample after some edits, as `pointer: code`. */
export function wrongAfter(values: Readonly<Record<string, unknown>>): string[] {
  return wrongIn(edited(values));
}

/** The message and the remedy of the only problem after some edits. */
export function toldAfter(values: Readonly<Record<string, unknown>>): { message: string; remedy: string } {
  const checked = checkDocument(edited(values));
  if (checked.ok || checked.problems.length !== 1) throw new Error(`not one problem: ${wrongAfter(values)}`);
  const [{ message, remedy }] = checked.problems;
  return { message, remedy };
}
