import { openApiDocument } from './openapi.js';
import { referencePage } from './reference-page.js';
import type { Route } from './route.js';

/** What the API says of itself, as it is sent. */
export interface Documentation {
  readonly openApi: string;
  readonly page: string;
}

const known = new Map<string, Documentation>();

/** The documentation of the routes of a version; made once, since it takes a while. */
export function documentationOf(routes: readonly Route[], version: string): Documentation {
  const made = known.get(version);
  if (made !== undefined) return made;
  const document = openApiDocument(routes, version);
  const documentation = { openApi: JSON.stringify(document), page: referencePage(document) };
  known.set(version, documentation);
  return documentation;
}
