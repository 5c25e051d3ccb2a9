import type { ProblemCode } from '../issue/problem.js';
import { type NoBranch, type PlainIssue, valueAt } from './best-branch.js';
import { nearest } from './nearest.js';
import { listed, shown } from './place.js';
import type { Path } from './pointer.js';
import { SCENARIO_FORMAT } from './schema/scenario.js';
import { descriptionAt } from './schema-walk.js';

/** One mistake of shape: where, what, and what to do. */
export interface Finding {
  readonly path: Path;
  readonly kind: 'unknown key' | 'missing' | 'other';
  readonly code: ProblemCode;
  readonly text: string;
  readonly remedy: string;
}

type Found = Omit<Finding, 'path' | 'kind'>;

/** The mistakes that an issue of the schema stands for; unknown keys are found elsewhere. */
export function findingOf(issue: PlainIssue, document: unknown): Finding {
  const path = issue.path as Path;
  const value = valueAt(document, path);
  if (path.length === 1 && path[0] === 'format') return { path, kind: 'other', ...formatFound(value) };
  if (value === undefined && typeof path[path.length - 1] === 'string') {
    return { path, kind: 'missing', ...missingFound(path) };
  }
  const { code, text, remedy } = found(issue, value, path);
  const description = describes(issue) && !isNumeral(value) ? descriptionAt(path) : undefined;
  return {
    path,
    kind: 'other',
    code,
    text,
    remedy: description === undefined ? remedy : `${remedy}: ${description}`,
  };
}

function found(issue: PlainIssue, value: unknown, path: Path): Found {
  switch (issue.code) {
    case 'invalid_type':
      return wrongType(value, [issue.expected]);
    case 'no branch':
      return noBranchFound(issue, value);
    case 'too_small':
    case 'too_big':
      return outOfRange(issue, value);
    case 'invalid_value':
      return notAChoice(value, issue.values);
    case 'invalid_format':
      return badFormat(value, issue.message);
    case 'invalid_key':
      return badFormat(path[path.length - 1], issue.issues[0]?.message ?? issue.message);
    default:
      return { code: 'malformed', text: `${quoted(value)} does not fit`, remedy: issue.message };
  }
}

/** Whether it helps to say what belongs in the place. */
function describes(issue: PlainIssue): boolean {
  return issue.code === 'invalid_type' || (issue.code === 'no branch' && issue.options === undefined);
}

function formatFound(value: unknown): Found {
  const reads = `this program reads ${SCENARIO_FORMAT}`;
  if (value === undefined) {
    return {
      code: 'unknown format',
      text: `the format is missing; ${reads}`,
      remedy: `Add "format": "${SCENARIO_FORMAT}"`,
    };
  }
  return {
    code: 'unknown format',
    text: `${quoted(value)} is no format that is known here; ${reads}`,
    remedy: `Rewrite the scenario in ${SCENARIO_FORMAT}, or use the version of the program that reads ${quoted(value)}`,
  };
}

function missingFound(path: Path): Found {
  const key = String(path[path.length - 1]);
  const description = descriptionAt(path);
  return {
    code: 'missing',
    text: `\`${key}\` is missing`,
    remedy: `Add \`${key}\`${description === undefined ? '' : `: ${description}`}`,
  };
}

const TYPE_NAMES: Readonly<Record<string, string>> = {
  number: 'a number',
  int: 'a whole number',
  array: 'a list',
  object: 'an object',
  record: 'an object',
  string: 'text',
  boolean: 'true or false',
};

function wrongType(value: unknown, expected: readonly string[]): Found {
  const wanted = listed([...new Set(expected.map((type) => TYPE_NAMES[type] ?? type))], 'or');
  if (isNumeral(value) && /number/.test(wanted)) {
    return {
      code: 'wrong type',
      text: `${quoted(value)} is text, not a number`,
      remedy: `Write ${shown(Number(value))} without quotation marks`,
    };
  }
  if (typeof value === 'number' && !Number.isFinite(value)) {
    return { code: 'wrong type', text: `${value} is no finite number`, remedy: `Write ${wanted}` };
  }
  return { code: 'wrong type', text: `found ${kindOf(value)}, not ${wanted}`, remedy: `Write ${wanted}` };
}

/** A number in quotation marks. */
function isNumeral(value: unknown): value is string {
  return typeof value === 'string' && value.trim() !== '' && Number.isFinite(Number(value));
}

function noBranchFound(issue: NoBranch, value: unknown): Found {
  if (issue.options !== undefined) return notAChoice(value, issue.options);
  const isObject = typeof value === 'object' && value !== null && !Array.isArray(value);
  if (!isObject || issue.forms.length === 0) return wrongType(value, issue.types);
  const forms = [...new Set(issue.forms.map((keys) => listed(keys, 'and')))];
  const others = issue.types.filter((type) => type !== 'object').map((type) => TYPE_NAMES[type] ?? type);
  const wanted = listed([...others, ...forms.map((keys) => `an object with ${keys}`)], 'or');
  return {
    code: 'malformed',
    text: 'this object has none of the forms allowed here',
    remedy: `Write ${wanted}`,
  };
}

function outOfRange(issue: Extract<PlainIssue, { code: 'too_small' | 'too_big' }>, value: unknown): Found {
  const low = issue.code === 'too_small';
  const limit = Number(low ? issue.minimum : issue.maximum);
  if (issue.origin === 'array') {
    return { code: 'out of range', text: 'the list is empty', remedy: 'List at least one' };
  }
  if (issue.origin === 'string') {
    return { code: 'out of range', text: 'the text is empty', remedy: 'Write a text' };
  }
  const bound = issue.inclusive
    ? `${shown(limit)} or ${low ? 'more' : 'less'}`
    : `${low ? 'above' : 'below'} ${shown(limit)}`;
  return {
    code: 'out of range',
    text: `${quoted(value)} must be ${bound}`,
    remedy: `Write a number ${bound}`,
  };
}

function notAChoice(value: unknown, choices: readonly unknown[]): Found {
  const names = choices.map(String);
  const near = typeof value === 'string' ? nearest(value, names) : undefined;
  const all = `Write one of ${listed(
    names.map((name) => `"${name}"`),
    'or',
  )}`;
  return {
    code: typeof value === 'string' ? 'malformed' : 'wrong type',
    text: `${quoted(value)} is not allowed here`,
    remedy: near === undefined ? all : `Write "${near}"`,
  };
}

const MONTH_NAMES =
  'January February March April May June July August September October November December'.split(' ');

function badFormat(value: unknown, remedy: string): Found {
  const [, year, month, day] = /^(\d{4})-(\d\d)(?:-(\d\d))?$/.exec(String(value)) ?? [];
  const name = MONTH_NAMES[Number(month) - 1];
  if (day !== undefined && name !== undefined && /date/.test(remedy)) {
    const days = daysIn(Number(year), Number(month));
    return {
      code: 'calendar',
      text: `${value} does not exist: ${name} ${year} has ${days} days`,
      remedy: `Write a date that exists, such as ${year}-${month}-${days}`,
    };
  }
  if (year !== undefined && /month|date/.test(remedy)) {
    return { code: 'calendar', text: `${value} does not exist in the calendar`, remedy };
  }
  return { code: 'malformed', text: `${quoted(value)} is not written as it should be`, remedy };
}

/** Days of a month of the Gregorian calendar. */
function daysIn(year: number, month: number): number {
  const isLeap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
  return [31, isLeap ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31][month - 1];
}

function quoted(value: unknown): string {
  if (typeof value === 'string') return `"${value.length > 40 ? `${value.slice(0, 40)}…` : value}"`;
  return typeof value === 'number' ? String(value) : kindOf(value);
}

function kindOf(value: unknown): string {
  if (value === undefined) return 'nothing';
  if (value === null) return 'null';
  if (Array.isArray(value)) return 'a list';
  if (typeof value === 'string') return `the text ${quoted(value)}`;
  return typeof value === 'object' ? 'an object' : `${value}`;
}
