import type { Problem } from '../../issue/problem.js';
import { type Draft, type Fragment, startsWith } from '../draft.js';
import { nearest } from '../nearest.js';
import { problemAt } from '../place.js';
import { formatPointer, idOf, type Location, type Path, parsePointer, resolvePointer } from '../pointer.js';
import type { Uncertainty } from '../schema/scenario.js';

/** A target is a number of the scenario that may vary; the figures of its distribution are in order. */
export function checkUncertainty(draft: Draft): Problem[] {
  const seen = new Set<string>();
  return draft.fragments.uncertainty.flatMap((entry) => [
    ...targetProblems(draft, entry, seen),
    ...distributionProblems(draft, entry),
    ...loneCorrelation(draft, entry),
  ]);
}

function targetProblems(draft: Draft, entry: Fragment<Uncertainty>, seen: Set<string>): Problem[] {
  const { target } = entry.value;
  if (target === undefined) return [];
  const place = `${entry.pointer}/target`;
  const location = resolvePointer(draft.document, target);
  if (location === undefined) {
    const found = longestStart(draft, target);
    const isMisshapen = draft.misshapen.some((wrong) => startsWith(found.start.path, wrong));
    if (isMisshapen || isUnclear(draft, [...found.start.path, ...found.rest.slice(0, 1)])) return [];
    return [
      problemAt(draft.document, place, 'unknown reference', `'${target}' leads to nothing`, remedyFor(found)),
    ];
  }
  if (isUnclear(draft, location.path)) return [];
  if (!mayVary(location)) {
    return [
      problemAt(
        draft.document,
        place,
        'wrong type',
        `'${target}' is no figure that can vary`,
        'Name a number, a rate or a series of them, such as /outlets/turf/price',
      ),
    ];
  }
  const path = formatPointer(location.path);
  if (!seen.has(path)) {
    seen.add(path);
    return [];
  }
  const text = `another entry has the target '${target}' too`;
  return [problemAt(draft.document, place, 'conflict', text, 'Keep one entry for a target')];
}

/** The longest part of a pointer that leads somewhere, and the tokens that follow. */
function longestStart(draft: Draft, target: string): { start: Location; rest: string[] } {
  const tokens = parsePointer(target) ?? [];
  for (let length = tokens.length; length > 0; length--) {
    const start = resolvePointer(draft.document, formatPointer(tokens.slice(0, length)));
    if (start !== undefined) return { start, rest: tokens.slice(length) };
  }
  return { start: { path: [], value: draft.document }, rest: tokens };
}

function remedyFor({ start, rest }: { start: Location; rest: string[] }): string {
  const near = nearest(rest[0] ?? '', namesIn(start.value));
  if (near !== undefined) return `Write '${formatPointer([...start.path, near, ...rest.slice(1)])}'`;
  return `Write a JSON Pointer that goes on from '${formatPointer(start.path)}' to a key, an id or a position there`;
}

function namesIn(value: unknown): string[] {
  if (Array.isArray(value)) return value.flatMap((entry) => idOf(entry) ?? []);
  return typeof value === 'object' && value !== null ? Object.keys(value) : [];
}

/** Whether what is wrong there is told elsewhere. */
function isUnclear(draft: Draft, path: Path): boolean {
  return draft.misshapen.some((wrong) => startsWith(path, wrong) || startsWith(wrong, path));
}

function mayVary({ path, value }: Location): boolean {
  const isWhole = path[0] === 'horizon' || (path[0] === 'machines' && path[2] === 'count');
  return !isWhole && path[0] !== 'uncertainty' && (isFigure(value) || isSeries(value));
}

function isFigure(value: unknown): boolean {
  return typeof value === 'number' || (isRecord(value) && typeof value.amount === 'number');
}

function isSeries(value: unknown): boolean {
  const values = isRecord(value) && typeof value.from === 'string' ? value.values : value;
  return Array.isArray(values) && values.length > 0 && values.every(isFigure);
}

function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function distributionProblems(draft: Draft, { value, pointer }: Fragment<Uncertainty>): Problem[] {
  const { distribution } = value;
  if (distribution === undefined || !('low' in distribution)) return [];
  const { low, high } = distribution;
  const mode = 'mode' in distribution ? distribution.mode : low;
  if (low <= mode && mode <= high) return [];
  const names = 'mode' in distribution ? '`low`, `mode` and `high`' : '`low` and `high`';
  return [
    problemAt(
      draft.document,
      `${pointer}/distribution`,
      'out of range',
      `${names} are not in rising order`,
      'Write the factors from the lowest to the highest',
    ),
  ];
}

function loneCorrelation(draft: Draft, { value, pointer, unclear }: Fragment<Uncertainty>): Problem[] {
  if (value.correlation === undefined || value.group !== undefined || unclear.has('group')) return [];
  return [
    problemAt(
      draft.document,
      `${pointer}/correlation`,
      'conflict',
      'a correlation is with a group, and there is no `group`',
      'Add `group`, or delete `correlation`',
    ),
  ];
}
