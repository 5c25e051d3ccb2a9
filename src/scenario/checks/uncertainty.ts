import type { Problem } from '../../issue/problem.js';
import { type Draft, type Fragment, LIST_NAMES, LIST_PATHS } from '../draft.js';
import { nearest } from '../nearest.js';
import { problemAt } from '../place.js';
import { formatPointer, idOf, type Location, parsePointer, resolvePointer } from '../pointer.js';
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
    return [
      problemAt(
        draft.document,
        place,
        'unknown reference',
        `'${target}' leads to nothing`,
        remedyFor(draft, target),
      ),
    ];
  }
  if (isUnclear(draft, location)) return [];
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

/** The longest part of the pointer that leads somewhere, and the key or id nearest to the one that follows. */
function remedyFor(draft: Draft, target: string): string {
  const tokens = parsePointer(target) ?? [];
  for (let length = tokens.length - 1; length >= 0; length--) {
    const start = formatPointer(tokens.slice(0, length));
    const location = resolvePointer(draft.document, start);
    if (location === undefined) continue;
    const near = nearest(tokens[length], namesIn(location.value));
    if (near !== undefined)
      return `Write '${formatPointer([...tokens.slice(0, length), near, ...tokens.slice(length + 1)])}'`;
    return `Write a JSON Pointer that goes on from '${start}' to a key, an id or a position there`;
  }
  return 'Write a JSON Pointer to a number of the scenario, such as /outlets/turf/price';
}

function namesIn(value: unknown): string[] {
  if (Array.isArray(value)) return value.flatMap((entry) => idOf(entry) ?? []);
  return typeof value === 'object' && value !== null ? Object.keys(value) : [];
}

function isUnclear(draft: Draft, { path }: Location): boolean {
  const list = LIST_NAMES.find((name) => LIST_PATHS[name].every((key, i) => key === path[i]));
  if (list === undefined) return false;
  const depth = LIST_PATHS[list].length;
  const pointer = formatPointer(path.slice(0, depth + 1));
  const fragment = draft.fragments[list].find((candidate) => candidate.pointer === pointer);
  return fragment === undefined ? path.length > depth : fragment.unclear.has(String(path[depth + 1]));
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
