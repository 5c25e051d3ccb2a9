import type * as z from 'zod';
import { nearest } from './nearest.js';
import type { Path } from './pointer.js';

/** An issue of the schema with its path from the root of what was parsed; no unions are left in it. */
export type PlainIssue = Exclude<z.core.$ZodIssue, { code: 'invalid_union' }> | NoBranch;

/** No form of a union fits the value. */
export interface NoBranch {
  readonly code: 'no branch';
  readonly path: PropertyKey[];
  /** Types that the forms have: "number", "array", "object", "string". */
  readonly types: readonly string[];
  /** The keys that each object form requires. */
  readonly forms: readonly (readonly string[])[];
  /** What the discriminating key may say. */
  readonly options?: readonly unknown[];
}

/**
 * The issues of a value with every union resolved to the form that the value resembles most, so that each
 * issue stands as deep in the value as its mistake.
 *
 * The resemblance: first the type of the value, then the number of its keys that a form lacks or misses,
 * then the number of issues.
 */
export function plainIssues(issues: readonly z.core.$ZodIssue[], value: unknown): PlainIssue[] {
  return issues.flatMap((issue) => {
    if (issue.code !== 'invalid_union') return [issue];
    return resolved(issue, valueAt(value, issue.path)).map((inner) => ({
      ...inner,
      path: [...issue.path, ...inner.path],
    }));
  });
}

function resolved(union: z.core.$ZodIssueInvalidUnion, value: unknown): PlainIssue[] {
  if (union.errors.length === 0) {
    const options = 'options' in union ? union.options : undefined;
    return [{ code: 'no branch', path: [], types: [], forms: [], options }];
  }
  const branches = union.errors.map((errors) => plainIssues(errors, value)).map(weighed(value));
  const best = branches.reduce((a, b) => (isBetter(b, a) ? b : a));
  const formless = best.fit === 'other type' || best.fit === 'no key in common';
  return formless && branches.length > 1
    ? [
        noBranch(
          branches.map(({ issues }) => issues),
          value,
        ),
      ]
    : best.issues;
}

interface Branch {
  readonly issues: PlainIssue[];
  readonly fit: 'other type' | 'no key in common' | 'some';
  readonly strangeKeys: number;
}

function weighed(value: unknown) {
  return (issues: PlainIssue[]): Branch => {
    const keys = isRecord(value) ? Object.keys(value).length : 0;
    const missing = issues.filter((issue) => isMissing(issue, value)).map(({ path }) => String(path[0]));
    const unknown = issues.flatMap((issue) => (isUnknownKeys(issue) ? issue.keys : []));
    const misspelt = unknown.filter((key) => nearest(key, missing) !== undefined).length;
    const otherType = issues.some((issue) => issue.path.length === 0 && isOtherType(issue));
    const noKey = isRecord(value) && unknown.length - misspelt === keys && missing.length > 0;
    const formless = issues.some(({ code, path }) => code === 'no branch' && path.length === 0);
    return {
      issues,
      fit: otherType ? 'other type' : noKey || formless ? 'no key in common' : 'some',
      strangeKeys: missing.length + unknown.length - 2 * misspelt,
    };
  };
}

function isBetter(a: Branch, b: Branch): boolean {
  const rank = ['some', 'no key in common', 'other type'];
  if (a.fit !== b.fit) return rank.indexOf(a.fit) < rank.indexOf(b.fit);
  if (a.strangeKeys !== b.strangeKeys) return a.strangeKeys < b.strangeKeys;
  return a.issues.length < b.issues.length;
}

function noBranch(branches: readonly PlainIssue[][], value: unknown): NoBranch {
  const roots = branches.flat().filter(({ path }) => path.length === 0);
  const types = roots.flatMap((issue) =>
    issue.code === 'no branch' ? issue.types : issue.code === 'invalid_type' ? [issue.expected] : [],
  );
  const forms = branches.flatMap((issues) => {
    const inner = issues.find((issue) => issue.code === 'no branch' && issue.path.length === 0);
    if (inner?.code === 'no branch') return inner.forms;
    const required = issues.filter((issue) => isMissing(issue, value)).map(({ path }) => String(path[0]));
    return required.length > 0 ? [required] : [];
  });
  return { code: 'no branch', path: [], types: [...new Set(types)], forms };
}

function isOtherType(issue: PlainIssue): boolean {
  return (
    issue.code === 'invalid_type' ||
    issue.code === 'invalid_value' ||
    (issue.code === 'no branch' && issue.forms.length === 0)
  );
}

function isMissing(issue: PlainIssue, value: unknown): boolean {
  return issue.path.length === 1 && isRecord(value) && !Object.hasOwn(value, issue.path[0]);
}

function isUnknownKeys(issue: PlainIssue): issue is z.core.$ZodIssueUnrecognizedKeys {
  return issue.code === 'unrecognized_keys' && issue.path.length === 0;
}

function isRecord(value: unknown): value is Record<PropertyKey, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** What stands at a path inside a value; undefined where nothing does. */
export function valueAt(value: unknown, path: Path | readonly PropertyKey[]): unknown {
  return path.reduce<unknown>(
    (inner, key) =>
      typeof inner === 'object' && inner !== null && Object.hasOwn(inner, key)
        ? (inner as Record<PropertyKey, unknown>)[key]
        : undefined,
    value,
  );
}
