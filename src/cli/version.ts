import { readFileSync } from 'node:fs';
import { PACKAGE_ROOT } from '../host/package-root.js';

/** The version of cutpoint. */
export function version(): string {
  const text = readFileSync(new URL('package.json', PACKAGE_ROOT), 'utf8');
  return (JSON.parse(text) as { version: string }).version;
}
