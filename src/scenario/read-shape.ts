import type { Problem } from '../issue/problem.js';
import { type PlainIssue, plainIssues } from './best-branch.js';
import { type Draft, draftOf, startsWith } from './draft.js';
import type { Finding } from './finding.js';
import { problemAt } from './place.js';
import { plainDocument } from './plain-document.js';
import { formatPointer, type Path } from './pointer.js';
import { type Scenario, scenarioSchema } from './schema/scenario.js';
import { findingOf } from './shape-finding.js';
import { isSupersededByPeriod, unknownKeys } from './unknown-keys.js';

/** What the schema says of a document. */
export interface ShapeReading {
  /** Mistakes of shape, each at its own place. */
  readonly problems: readonly Problem[];
  readonly draft: Draft;
  /** Present where the shape is right throughout. */
  readonly scenario?: Scenario;
}

/** Reads the shape of a document: every mistake one by one, and a draft of the parts that are right. */
export function readShape(input: unknown): ShapeReading {
  const { document, refused } = plainDocument(input);
  const parsed = scenarioSchema.safeParse(document);
  if (parsed.success && refused.length === 0) {
    return { problems: [], draft: draftOf(document), scenario: parsed.data };
  }
  const issues = parsed.success ? [] : plainIssues(parsed.error.issues, document);
  const { findings, strange, misshapen } = sorted(issues, document);
  const isRefused = (path: Path) => refused.some((place) => startsWith(path, place.path));
  return {
    problems: [
      ...refused.map(({ problem }) => problem),
      ...findings.filter(({ path }) => !isRefused(path)).map((finding) => problemOf(document, finding)),
    ],
    draft: draftOf(without(document, strange), [...misshapen, ...refused.map(({ path }) => path)]),
  };
}

/** A key that is unknown or missing is named in the text, so that the place is the object around it. */
function problemOf(document: unknown, { path, kind, code, text, remedy }: Finding): Problem {
  const place = formatPointer(kind === 'other' ? path : path.slice(0, -1));
  return { ...problemAt(document, place, code, text, remedy), pointer: formatPointer(path) };
}

interface Sorted {
  readonly findings: readonly Finding[];
  /** Paths of keys that the format does not know. */
  readonly strange: readonly Path[];
  /** Paths of what is not as it should be, absent keys that are probably misspelt among them. */
  readonly misshapen: readonly Path[];
}

function sorted(issues: readonly PlainIssue[], document: unknown): Sorted {
  const others = issues.filter((issue) => issue.code !== 'unrecognized_keys');
  const found = others.map((issue) => findingOf(issue, document));
  const missing = found.filter(({ kind }) => kind === 'missing').map(({ path }) => path);
  const strange = issues.flatMap((issue) =>
    issue.code === 'unrecognized_keys' ? unknownKeys(issue, document, missing) : [],
  );
  const strangeFindings = strange.map(({ finding }) => finding);
  const meant = strange.flatMap((key) => (key.meant === undefined ? [] : [key.meant]));
  const isExplained = ({ kind, path }: Finding) =>
    kind === 'missing' &&
    (meant.some((place) => formatPointer(place) === formatPointer(path)) ||
      isSupersededByPeriod(path, strangeFindings));
  return {
    findings: [...found.filter((finding) => !isExplained(finding)), ...strangeFindings],
    strange: strangeFindings.map(({ path }) => path),
    misshapen: [...found.map(({ path }) => path), ...meant],
  };
}

/** A copy of the document without the keys at these paths. */
function without(document: unknown, paths: readonly Path[]): unknown {
  const copy: unknown = structuredClone(document);
  for (const path of paths) {
    const parent = path
      .slice(0, -1)
      .reduce<unknown>((value, key) => (value as Record<string, unknown>)[key], copy);
    delete (parent as Record<string, unknown>)[path[path.length - 1]];
  }
  return copy;
}
