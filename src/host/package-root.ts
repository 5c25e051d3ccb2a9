import { existsSync } from 'node:fs';

/** The folder of cutpoint, wherever in it the code that runs was put by the build. */
export const PACKAGE_ROOT: URL = nearest(new URL('.', import.meta.url));

function nearest(folder: URL): URL {
  if (existsSync(new URL('package.json', folder))) return folder;
  return nearest(new URL('..', folder));
}
