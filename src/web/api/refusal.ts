import type { Problem } from '../../issue/problem.js';

/** Why a request is not answered with what it asks for: the problem types of RFC 9457 that this API has. */
export const REFUSALS = {
  malformed: {
    status: 400,
    title: 'The request is not what it should be',
    when: 'Text that is not JSON or not UTF-8, keys that stand twice, headers that cannot be read.',
  },
  unauthorized: {
    status: 401,
    title: 'A token is needed',
    when: 'No bearer token, or one that is not known.',
  },
  forbidden: {
    status: 403,
    title: 'Not with this token, or not from there',
    when: 'A token that may only read, or a page of another origin.',
  },
  'not-found': {
    status: 404,
    title: 'There is no such thing',
    when: 'No scenario, offer, version, job, answer or path of that name.',
  },
  'method-not-allowed': {
    status: 405,
    title: 'Not with this method',
    when: 'The path is there, but not for this method; `Allow` names the ones that are.',
  },
  'too-slow': {
    status: 408,
    title: 'The request came too slowly',
    when: 'It did not arrive whole in the time that it may take.',
  },
  'broken-scenario': {
    status: 409,
    title: 'The stored scenario is broken',
    when: 'The file was edited by hand and does not pass its checks, or is no plain file; `problems` says why.',
  },
  'not-ended': { status: 409, title: 'The job has not ended', when: 'Its answer was asked for too early.' },
  'precondition-failed': {
    status: 412,
    title: 'It has changed since, or is there already',
    when: '`If-Match` names another version than the one that is there, or `If-None-Match: *` stands and something is.',
  },
  'too-large': {
    status: 413,
    title: 'The request is too large',
    when: 'A body above the limit, or a change with which a scenario would be.',
  },
  'unsupported-media-type': {
    status: 415,
    title: 'Not in this form',
    when: 'A body that is not `application/json`, or that is compressed.',
  },
  misdirected: {
    status: 421,
    title: 'Not the host that was asked for',
    when: 'A `Host` that is not this server.',
  },
  'invalid-request': {
    status: 422,
    title: 'The request asks for what cannot be',
    when: 'A member is missing, unknown or out of range; pointers lead into the request.',
  },
  'invalid-scenario': {
    status: 422,
    title: 'The scenario has problems',
    when: 'It does not pass its checks; pointers lead into the scenario as it is after its patch.',
  },
  infeasible: {
    status: 422,
    title: 'No plan meets all limits of the scenario',
    when: 'The limits and promises cannot all hold; `answer` says more.',
  },
  'no-certified-answer': {
    status: 422,
    title: 'No answer that holds within the limits',
    when: 'No engine gave an answer that could be proved in the time that was given.',
  },
  'precondition-required': {
    status: 428,
    title: 'Say which version you have seen',
    when: 'A write without `If-Match` and without `If-None-Match: *`.',
  },
  'too-many-jobs': {
    status: 429,
    title: 'Too many questions at a time',
    when: 'As many questions of this client as it may have are being worked on.',
  },
  'long-head': { status: 431, title: 'The headers are too long', when: 'Headers above the limit.' },
  internal: {
    status: 500,
    title: 'The server failed',
    when: 'A fault of the program; the request id finds it in the log.',
  },
  busy: { status: 503, title: 'Too much to do', when: 'The queue is full, or the server is closing.' },
} as const satisfies Readonly<Record<string, { status: number; title: string; when: string }>>;

export type RefusalKind = keyof typeof REFUSALS;

export interface RefusalExtras {
  readonly problems?: readonly Problem[];
  readonly headers?: Readonly<Record<string, string>>;
  /** Further members of the problem details. */
  readonly members?: Readonly<Record<string, unknown>>;
}

/** Thrown by whatever finds that a request cannot be answered; its text is for the client. */
export class Refusal extends Error {
  override readonly name = 'Refusal';
  constructor(
    readonly kind: RefusalKind,
    readonly detail: string,
    readonly extras: RefusalExtras = {},
  ) {
    super(detail);
  }
}
