import { readFileSync } from 'node:fs';
import { PACKAGE_ROOT } from '../../host/package-root.js';
import { STYLE } from '../../report/html/style.js';
import { Refusal } from '../api/refusal.js';
import { contentName } from './markup-response.js';

export type ScriptName = 'redraw' | 'plant' | 'long-question' | 'offer';

const SCRIPTS = new URL('dist/web/assets/', PACKAGE_ROOT);

interface Asset {
  readonly name: string;
  readonly type: string;
  readonly text: string;
}

const made = new Map<string, Asset>();

/** Where the style of the pages is: the name changes with what is in it. */
export function stylePath(): string {
  return pathOf(asset('style', '.css', 'text/css', () => STYLE));
}

export function scriptPath(name: ScriptName): string {
  return pathOf(script(name));
}

/** @throws Refusal where there is no such file */
export function assetResponse(file: string): Response {
  asset('style', '.css', 'text/css', () => STYLE);
  for (const name of ['redraw', 'plant', 'long-question', 'offer'] as const) script(name);
  const found = [...made.values()].find(({ name }) => name === file);
  if (found === undefined) throw new Refusal('not-found', 'There is no such file.');
  return new Response(found.text, {
    headers: {
      'Content-Type': `${found.type}; charset=utf-8`,
      'Cache-Control': 'public, max-age=31536000, immutable',
    },
  });
}

/** A script, which asks for its parts by the names that they have here. */
function script(name: string): Asset {
  return asset(name, '.js', 'text/javascript', () =>
    readFileSync(new URL(`${name}.js`, SCRIPTS), 'utf8').replaceAll(
      IMPORTED,
      (_, before: string, part: string) => `${before}'./${script(part).name}'`,
    ),
  );
}

/** As the compiler writes it: `import { a } from './part.js'`, `import './part.js'`. */
const IMPORTED = /^(import (?:[^'"]* from )?)'\.\/([\w-]+)\.js'/gm;

function asset(stem: string, extension: string, type: string, read: () => string): Asset {
  const known = made.get(stem);
  if (known !== undefined) return known;
  const text = read();
  const own = { name: `${stem}-${contentName(text)}${extension}`, type, text };
  made.set(stem, own);
  return own;
}

function pathOf({ name }: Asset): string {
  return `/assets/${name}`;
}
