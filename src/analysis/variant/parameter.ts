import type { Problem } from '../../issue/problem.js';
import { formatPointer, type Path, resolvePointer } from '../../scenario/pointer.js';

/**
 * One number to be moved, or several tied together. `value`: each of them becomes the number (in a series: in
 * every month). `factor`: each of them is multiplied by it.
 */
export interface Parameter {
  /** RFC 6901 JSON Pointers to numbers, rates or series of them; ids may stand for list positions. */
  readonly pointers: readonly string[];
  readonly kind: 'value' | 'factor';
}

/** A number in a document. */
export interface Figure {
  readonly path: Path;
  readonly value: number;
}

export type FiguresFound =
  | { readonly ok: true; readonly figures: readonly Figure[] }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** The numbers that a parameter moves, all of them. */
export function figuresOf(document: unknown, parameter: Pick<Parameter, 'pointers'>): FiguresFound {
  const figures: Figure[] = [];
  const problems: Problem[] = [];
  for (const pointer of parameter.pointers) {
    const location = resolvePointer(document, pointer);
    const found = location === undefined ? [] : numbersAt(location.path, location.value);
    if (found === undefined || found.length === 0) problems.push(noNumber(pointer, location !== undefined));
    else figures.push(...found);
  }
  return problems.length === 0 ? { ok: true, figures } : { ok: false, problems };
}

/** The document with each figure replaced; it is left as it is. */
export function withFigures(
  document: unknown,
  figures: readonly Figure[],
  value: (old: number, position: number) => number,
): unknown {
  return figures.reduce<unknown>(
    (changed, figure, i) => replacedAt(changed, figure.path, value(figure.value, i)),
    document,
  );
}

/** The document with the parameter at a value. */
export function withParameter(
  document: unknown,
  parameter: Parameter,
  figures: readonly Figure[],
  at: number,
): unknown {
  return withFigures(document, figures, (old) => (parameter.kind === 'factor' ? old * at : at));
}

/** Where the scenario itself stands: factor 1, or the number, where all figures are the same one. */
export function ownValue(parameter: Parameter, figures: readonly Figure[]): number | undefined {
  if (parameter.kind === 'factor') return 1;
  const [first] = figures;
  return figures.every(({ value }) => value === first.value) ? first.value : undefined;
}

/** Numbers, amounts of rates, and those of a series; undefined where something else stands there. */
function numbersAt(path: Path, value: unknown): Figure[] | undefined {
  if (typeof value === 'number') return [{ path, value }];
  if (Array.isArray(value)) return all(value.map((entry, i) => numbersAt([...path, i], entry)));
  if (typeof value !== 'object' || value === null) return undefined;
  if ('amount' in value) return numbersAt([...path, 'amount'], value.amount);
  if ('values' in value && 'from' in value) return numbersAt([...path, 'values'], value.values);
  return undefined;
}

function all(parts: readonly (Figure[] | undefined)[]): Figure[] | undefined {
  return parts.includes(undefined) ? undefined : parts.flatMap((part) => part ?? []);
}

function replacedAt(document: unknown, path: Path, value: number): unknown {
  const [key, ...rest] = path;
  if (key === undefined) return value;
  if (Array.isArray(document)) {
    return document.map((entry, i) => (i === key ? replacedAt(entry, rest, value) : entry));
  }
  const record = document as Record<string | number, unknown>;
  return { ...record, [key]: replacedAt(record[key], rest, value) };
}

function noNumber(pointer: string, exists: boolean): Problem {
  return {
    pointer,
    code: exists ? 'wrong type' : 'unknown reference',
    message: exists ? `${pointer} is not a number, a rate or a series.` : `${pointer} leads nowhere.`,
    remedy: 'Point at one number, such as /outlets/0/price; ids may stand for list positions.',
  };
}

/** @example pointerOf({ path: ['outlets', 0, 'price'], value: 1 }) // '/outlets/0/price' */
export function pointerOf(figure: Figure): string {
  return formatPointer(figure.path);
}
