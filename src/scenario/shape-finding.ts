import { badFormat } from './bad-format.js';
import { type NoBranch, type PlainIssue, valueAt } from './best-branch.js';
import type { Finding, Found } from './finding.js';
import { nearest } from './nearest.js';
import { listed, shown } from './place.js';
import type { Path } from './pointer.js';
import { SCENARIO_FORMAT } from './schema/scenario.js';
import { descriptionAt } from './schema-walk.js';
import { kindOf, quoted } from './shown-value.js';

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
