import { type AnyNode, type MemberNode, parse } from '@humanwhocodes/momoa';
import type { Problem } from '../issue/problem.js';
import { MAX_DEPTH } from './plain-document.js';
import { formatPointer, type Path } from './pointer.js';

/** A document read from JSON text; `problems` are keys that stand twice. */
export type JsonReading =
  | { readonly ok: true; readonly document: unknown; readonly problems: readonly Problem[] }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/**
 * Reads JSON text (RFC 8259). A byte order mark at the start is passed over. Text that is not JSON is
 * answered with line and column; a key that stands twice in one object with its pointer, since a plain
 * parser would silently keep the last.
 */
export function readJson(text: string): JsonReading {
  const json = text.startsWith('\uFEFF') ? text.slice(1) : text;
  if (json.trim() === '') return refused('the text is empty', 'Write a scenario as one JSON object.');
  const nesting = scanNesting(json);
  if (nesting.deepest > MAX_DEPTH) {
    return refused(
      `lists and objects are nested more than ${MAX_DEPTH} deep`,
      'Write a scenario: it nests no deeper than ten.',
    );
  }
  try {
    const document: unknown = JSON.parse(json);
    return { ok: true, document, problems: duplicateKeys(parse(json, { mode: 'json' }).body, []) };
  } catch (error) {
    if (!(error instanceof SyntaxError)) throw error;
    return malformed(json, offsetOf(json, nesting));
  }
}

interface Nesting {
  readonly deepest: number;
  /** Something is still open at the end of the text. */
  readonly open: boolean;
  /** Offset of the first raw control character inside a string; -1 without one. */
  readonly controlCharacter: number;
}

function scanNesting(json: string): Nesting {
  let deepest = 0;
  let depth = 0;
  let inString = false;
  let controlCharacter = -1;
  for (let i = 0; i < json.length; i++) {
    const character = json[i];
    if (inString) {
      if (character === '\\') i++;
      else if (character === '"') inString = false;
      else if (character < ' ' && controlCharacter < 0) controlCharacter = i;
    } else if (character === '"') inString = true;
    else if (character === '{' || character === '[') deepest = Math.max(deepest, ++depth);
    else if (character === '}' || character === ']') depth--;
  }
  return { deepest, open: inString || depth > 0, controlCharacter };
}

function offsetOf(json: string, nesting: Nesting): number {
  try {
    parse(json, { mode: 'json' });
  } catch (error) {
    const { offset } = error as { offset?: number };
    if (offset === undefined) throw error;
    return nesting.open && LAST_TOKEN.test(json.slice(offset)) ? json.trimEnd().length : offset;
  }
  // The one mistake that the position-keeping parser lets pass.
  return nesting.controlCharacter;
}

/** Where the text ends too early, the position-keeping parser blames the last token. */
const LAST_TOKEN = /^("(?:[^"\\]|\\.)*"|[^\s"{}[\],:]+|[{}[\],:])?\s*$/;

function malformed(json: string, offset: number): JsonReading {
  const before = json.slice(0, offset).split(/\r\n|\n|\r/);
  const place = `line ${before.length}, column ${before[before.length - 1].length + 1}`;
  const found = json.slice(offset).trim() === '' ? 'the text ends' : `found ${JSON.stringify(json[offset])}`;
  return refused(
    `this is not JSON: ${found} at ${place}`,
    remedyFor(json.slice(offset), json.slice(0, offset)),
  );
}

function remedyFor(rest: string, before: string): string {
  const previous = before.trimEnd().slice(-1);
  const quotes = 'Write keys and text between double quotation marks.';
  if (rest.trim() === '') return 'Close every string, list and object that is open there.';
  if (/^[\]}]/.test(rest) && previous === ',') return 'Delete the comma before the closing bracket.';
  if (/^\/[/*]/.test(rest)) return 'Delete the comment: JSON has none. Use `note` for remarks.';
  if (rest.startsWith("'")) return quotes;
  if (/^[-+]?(NaN|Infinity)/.test(rest)) return 'Write a finite number.';
  if (/^[+.]/.test(rest) || /^0\d/.test(rest) || /\d$/.test(before)) {
    return 'Write numbers as 0.5 or 12: no plus sign, no leading zero or point.';
  }
  if (/^[A-Za-z_$]/.test(rest) && /[{,:[]/.test(previous)) return quotes;
  if (/^["{[\d]/.test(rest)) return 'Put a comma or a colon before it.';
  if (rest.startsWith('\\')) return 'Write a backslash inside text as two backslashes.';
  if (rest < ' ') return 'Write \\n or \\t for a line break or a tab inside text.';
  return 'Correct the text there; an editor that knows JSON marks the place.';
}

function refused(whatIsWrong: string, remedy: string): JsonReading {
  const message = `The document: ${whatIsWrong}.`;
  return { ok: false, problems: [{ pointer: '', code: 'malformed', message, remedy }] };
}

function duplicateKeys(node: AnyNode, path: Path): Problem[] {
  if (node.type === 'Array') {
    return node.elements.flatMap((element, i) => duplicateKeys(element.value, [...path, i]));
  }
  if (node.type !== 'Object') return [];
  const first = new Map<string, MemberNode>();
  return node.members.flatMap((member) => {
    const key = keyOf(member);
    const earlier = first.get(key);
    if (earlier === undefined) first.set(key, member);
    const inside = duplicateKeys(member.value, [...path, key]);
    return earlier === undefined ? inside : [duplicateKey([...path, key], earlier, member), ...inside];
  });
}

function duplicateKey(path: Path, earlier: MemberNode, later: MemberNode): Problem {
  return {
    pointer: formatPointer(path),
    code: 'malformed',
    message: `${path.join('.')}: the key stands twice in one object, on lines ${earlier.loc.start.line} and ${later.loc.start.line}.`,
    remedy: 'Keep one of the two.',
  };
}

function keyOf(member: MemberNode): string {
  return member.name.type === 'String' ? member.name.value : member.name.name;
}
