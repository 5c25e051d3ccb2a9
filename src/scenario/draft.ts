import type { Problem } from '../issue/problem.js';
import { formatPointer, idOf, type Path } from './pointer.js';
import type {
  Contract,
  Crew,
  Disposal,
  Feed,
  FixedCost,
  Index,
  Machine,
  Material,
  Outlet,
  Scenario,
  Step,
  Store,
  Uncertainty,
  Window,
} from './schema/scenario.js';

/** The lists of a document and what stands in them. `windows` is the list inside `operation`. */
export interface Lists {
  readonly windows: Window;
  readonly materials: Material;
  readonly stores: Store;
  readonly feeds: Feed;
  readonly crews: Crew;
  readonly machines: Machine;
  readonly steps: Step;
  readonly outlets: Outlet;
  readonly indices: Index;
  readonly contracts: Contract;
  readonly offers: Contract;
  readonly disposals: Disposal;
  readonly fixedCosts: FixedCost;
  readonly uncertainty: Uncertainty;
}

export type ListName = keyof Lists;

/** Where each list stands in the document. */
export const LIST_PATHS: Readonly<Record<ListName, Path>> = {
  windows: ['operation', 'windows'],
  materials: ['materials'],
  stores: ['stores'],
  feeds: ['feeds'],
  crews: ['crews'],
  machines: ['machines'],
  steps: ['steps'],
  outlets: ['outlets'],
  indices: ['indices'],
  contracts: ['contracts'],
  offers: ['offers'],
  disposals: ['disposals'],
  fixedCosts: ['fixedCosts'],
  uncertainty: ['uncertainty'],
};

export const LIST_NAMES = Object.keys(LIST_PATHS) as ListName[];

/** Something in the document and the JSON Pointer (by position) to it. */
export interface Located<T> {
  readonly value: T;
  readonly pointer: string;
}

/** The keys of a list entry whose shape is right. */
export interface Fragment<T> {
  readonly value: Partial<T>;
  readonly pointer: string;
  /** Keys that are written, or seem to be, but not as they should: absent in `value` without being absent. */
  readonly unclear: ReadonlySet<string>;
}

type WholeEntries = { readonly [L in ListName]: readonly Located<Lists[L]>[] };

/**
 * The parts of a document whose shape is right, for the checks that a mistake of shape elsewhere must not
 * hide. Each list holds, in document order, the entries that are right from end to end; `fragments` holds
 * what is right of every entry.
 */
export interface Draft extends WholeEntries {
  /** The whole document as it was given, for naming places. */
  readonly document: unknown;
  readonly units?: Located<Scenario['units']>;
  readonly horizon?: Located<Scenario['horizon']>;
  readonly operation?: Located<Scenario['operation']>;
  readonly demand?: Located<NonNullable<Scenario['operation']['demand']>>;
  /** Closed dates, where `operation` says them rightly or not at all. */
  readonly closed?: readonly string[];
  readonly fragments: { readonly [L in ListName]: readonly Fragment<Lists[L]>[] };
  /** Paths (by position) of what is written, or seems to be meant, but is not as it should be. */
  readonly misshapen: readonly Path[];
  /** Every id that is declared, those of misshapen entries too. */
  readonly declared: { readonly [L in ListName]: ReadonlySet<string> };
}

/** A check across the parts of a document; it returns what is wrong and never throws. */
export type DraftCheck = (draft: Draft) => readonly Problem[];

/**
 * The draft of a document.
 *
 * @param misshapen the paths (by position) of what is wrong in shape; none for a document that fits the schema
 */
export function draftOf(document: unknown, misshapen: readonly Path[] = []): Draft {
  const fragments = byList((list) => fragmentsOf(document, list, misshapen));
  return {
    document,
    ...rightAt(document, ['units'], misshapen),
    ...rightAt(document, ['horizon'], misshapen),
    ...rightAt(document, ['operation'], misshapen),
    ...rightAt(document, ['operation', 'demand'], misshapen),
    ...closedDates(document, misshapen),
    ...byList((list) => fragments[list].filter(({ unclear }) => unclear.size === 0)),
    fragments,
    misshapen,
    declared: byList((list) => new Set(entriesOf(document, list).flatMap((entry) => idOf(entry) ?? []))),
  } as unknown as Draft;
}

/** The entries of a list as they are written; none where it is absent or no list. */
export function entriesOf(document: unknown, list: ListName): readonly unknown[] {
  const value = valueAt(document, LIST_PATHS[list]);
  return Array.isArray(value) ? value : [];
}

/** Whether a path leads to a place or into it. */
export function startsWith(path: Path, start: Path): boolean {
  return start.length <= path.length && start.every((key, i) => key === path[i]);
}

function byList<T>(make: (list: ListName) => T): Record<ListName, T> {
  return Object.fromEntries(LIST_NAMES.map((list) => [list, make(list)])) as Record<ListName, T>;
}

function fragmentsOf(document: unknown, list: ListName, misshapen: readonly Path[]): Fragment<unknown>[] {
  return entriesOf(document, list).flatMap((entry, position) => {
    const path = [...LIST_PATHS[list], position];
    const inside = misshapen.filter((wrong) => startsWith(wrong, path));
    if (!isRecord(entry) || inside.some((wrong) => wrong.length === path.length)) return [];
    const unclear = new Set(inside.map((wrong) => String(wrong[path.length])));
    const right = Object.entries(entry).filter(([key]) => !unclear.has(key));
    return [{ value: Object.fromEntries(right), pointer: formatPointer(path), unclear }];
  });
}

function rightAt(document: unknown, path: Path, misshapen: readonly Path[]) {
  const value = valueAt(document, path);
  if (value === undefined || misshapen.some((wrong) => startsWith(wrong, path))) return {};
  return { [path[path.length - 1]]: { value, pointer: formatPointer(path) } };
}

function closedDates(document: unknown, misshapen: readonly Path[]) {
  const path = ['operation', 'closed'];
  if (misshapen.some((wrong) => startsWith(wrong, path) || startsWith(path, wrong))) return {};
  return { closed: valueAt(document, path) ?? [] };
}

function valueAt(document: unknown, path: Path): unknown {
  return path.reduce<unknown>(
    (value, key) => (isRecord(value) && Object.hasOwn(value, key) ? value[key] : undefined),
    document,
  );
}

function isRecord(value: unknown): value is Record<string | number, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
