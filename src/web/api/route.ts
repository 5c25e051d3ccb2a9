import type { Context } from 'hono';
import type * as z from 'zod';
import type { RefusalKind } from './refusal.js';

/** What a request carries with it from the guard to its handler. */
export interface RequestVariables {
  requestId: string;
  /** Who asks, for limits: the address, or the token's kind and the address. */
  client: string;
}

export type ApiContext = Context<{ Variables: RequestVariables }>;

/** One operation of the API: how it is answered, and all that its documentation says. */
export interface Route {
  /** The operation's id in the OpenAPI document. */
  readonly id: string;
  readonly method: 'GET' | 'POST' | 'PUT' | 'DELETE';
  /** With parameters in braces: `/scenarios/{name}`. */
  readonly path: string;
  readonly tag: string;
  readonly summary: string;
  readonly description?: string;
  /** `anyone`: without a token; `read`: with any; `full`: with one that may write. */
  readonly access: 'anyone' | 'read' | 'full';
  readonly headers?: readonly HeaderParameter[];
  readonly body?: Body;
  readonly responses: Readonly<Record<number, ResponseBody>>;
  readonly refusals: readonly RefusalKind[];
  readonly handle: (context: ApiContext) => Promise<Response> | Response;
}

export interface HeaderParameter {
  readonly name: string;
  readonly description: string;
}

export interface Body {
  readonly schema: z.ZodType;
  readonly example: unknown;
}

export interface ResponseBody {
  readonly description: string;
  /** Absent: no body, or, with a content type, text. */
  readonly schema?: z.ZodType;
  /** application/json if absent. */
  readonly contentType?: string;
  readonly headers?: Readonly<Record<string, string>>;
}
