import type { Expected } from '../storage/stored-scenario.js';
import { Refusal } from './refusal.js';
import type { ApiContext, HeaderParameter } from './route.js';

export const WRITE_HEADERS: readonly HeaderParameter[] = [
  { name: 'If-None-Match', description: '`*`: create; refused where something is there already.' },
  {
    name: 'If-Match',
    description: 'The entity tag that was read: replace that version and no other. `*`: any.',
  },
];

export const DELETE_HEADERS: readonly HeaderParameter[] = [WRITE_HEADERS[1]];

export const READ_HEADERS: readonly HeaderParameter[] = [
  { name: 'If-None-Match', description: 'Entity tags that the client has; 304 where one is still right.' },
];

/**
 * What a write expects to find (RFC 9110, 13.1).
 *
 * @throws Refusal 428 where the request does not say, 400 where it cannot be read.
 */
export function expectedOf(context: ApiContext): Expected {
  const ifMatch = context.req.header('If-Match');
  if (ifMatch !== undefined) return { kind: 'version', etags: etagsOf('If-Match', ifMatch) };
  const ifNoneMatch = context.req.header('If-None-Match');
  if (ifNoneMatch === undefined) {
    throw new Refusal(
      'precondition-required',
      'Send If-Match with the entity tag that you read, or If-None-Match: * to create.',
    );
  }
  if (ifNoneMatch.trim() !== '*') throw new Refusal('malformed', 'For a write If-None-Match may only be *.');
  return { kind: 'nothing' };
}

/** The versions of which one must be there. @throws Refusal */
export function matchOf(context: ApiContext): readonly string[] | 'any' {
  const ifMatch = context.req.header('If-Match');
  if (ifMatch === undefined) {
    throw new Refusal('precondition-required', 'Send If-Match with the entity tag that you read.');
  }
  return etagsOf('If-Match', ifMatch);
}

/** Whether the client has this version already. Unreadable tags match nothing. */
export function isKnown(context: ApiContext, etag: string): boolean {
  const header = context.req.header('If-None-Match');
  if (header === undefined) return false;
  if (header.trim() === '*') return true;
  return (header.match(TAG) ?? []).some((tag) => tag.replace(/^W\//, '') === etag);
}

/** A tag is short, and the header's length is limited by the server. */
const TAG = /(?:W\/)?"[\x21\x23-\x7e\x80-\xff]*"/g;

function etagsOf(name: string, header: string): readonly string[] | 'any' {
  if (header.trim() === '*') return 'any';
  const tags = header.match(TAG) ?? [];
  if (tags.length === 0 || /[^\s,]/.test(header.replace(TAG, ''))) {
    throw new Refusal('malformed', `${name} is a list of entity tags in quotation marks, or *.`);
  }
  // A weak tag never matches for a write.
  return tags.filter((tag) => !tag.startsWith('W/'));
}
