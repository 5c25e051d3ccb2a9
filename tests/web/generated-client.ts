import type { OpenApiDocument } from '../../src/web/api/openapi.js';

export interface CallOptions {
  readonly path?: Readonly<Record<string, string>>;
  readonly headers?: Readonly<Record<string, string>>;
  readonly body?: unknown;
}

/** Calls an operation by its id; gives what is in the body. */
// biome-ignore lint/suspicious/noExplicitAny: a client of any document knows no types.
export type ApiClient = (operationId: string, options?: CallOptions) => Promise<any>;

type Fetch = (url: string, init: RequestInit) => Promise<Response>;

/** A client that knows nothing but the OpenAPI document: paths, parameters, media types, statuses. */
export function apiClient(document: OpenApiDocument, fetch: Fetch): ApiClient {
  const operations = new Map(
    Object.entries(document.paths).flatMap(([path, methods]) =>
      Object.entries(methods).map(([method, operation]) => [
        operation.operationId,
        { path, method, operation },
      ]),
    ),
  );
  return async (operationId, { path: values = {}, headers = {}, body } = {}) => {
    const found = operations.get(operationId);
    if (found === undefined) throw new Error(`there is no operation ${operationId}`);
    const { path, method, operation } = found;
    const url = path.replaceAll(/\{(\w+)\}/g, (_, name: string) => {
      if (values[name] === undefined) throw new Error(`${operationId} needs ${name}`);
      return encodeURIComponent(values[name]);
    });
    const [contentType] = Object.keys(operation.requestBody?.content ?? {});
    const response = await fetch(url, {
      method: method.toUpperCase(),
      headers: { ...(contentType === undefined ? {} : { 'Content-Type': contentType }), ...headers },
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
    });
    if (operation.responses[String(response.status)] === undefined)
      throw new Error(`${response.status} is not documented`);
    const text = await response.text();
    const value = text === '' ? undefined : JSON.parse(text);
    if (!response.ok) throw new Error(value.detail);
    return value;
  };
}
