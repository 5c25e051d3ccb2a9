import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

const SOURCE = fileURLToPath(new URL('../src', import.meta.url));

/** The way of the data: a folder may import itself and the folders before it. */
const ORDER = [
  ['quantity', 'calendar', 'issue'],
  ['scenario'],
  ['plant'],
  ['program'],
  ['planning'],
  ['solver'],
  ['analysis'],
  ['report'],
  ['host'],
  ['web'],
  ['cli'],
];

const PURE = ['quantity', 'calendar', 'issue', 'scenario', 'plant', 'program', 'planning'];

interface Import {
  readonly from: string;
  readonly to: string;
  readonly typeOnly: boolean;
}

function sourceFiles(folder = SOURCE): string[] {
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) return sourceFiles(path);
    return entry.name.endsWith('.ts') ? [path] : [];
  });
}

function importsOf(file: string): Import[] {
  const text = readFileSync(file, 'utf8');
  const pattern = /(?:^|\n)\s*(?:import|export)\s(type\s)?[^;]*?from\s+'([^']+)'|import\('([^']+)'\)/g;
  return [...text.matchAll(pattern)].map(([, typeOnly, named, dynamic]) => {
    const target = named ?? dynamic;
    const to = target.startsWith('.')
      ? relative(SOURCE, resolve(dirname(file), target)).replace(/\.js$/, '.ts')
      : target;
    return { from: relative(SOURCE, file), to, typeOnly: typeOnly !== undefined };
  });
}

const files = sourceFiles();
const imports = files.flatMap(importsOf);
const inside = imports.filter(({ to }) => to.endsWith('.ts'));
const folderOf = (path: string) => path.split('/')[0];
const rankOf = (path: string) => ORDER.findIndex((rank) => rank.includes(folderOf(path)));

describe('the way of the data is one direction', () => {
  it('every folder has its place in the order', () => {
    expect(files.map((file) => relative(SOURCE, file)).filter((file) => rankOf(file) < 0)).toEqual([]);
  });

  it('no folder imports one that comes after it, or beside it', () => {
    const breaches = inside.filter(({ from, to }) => {
      if (folderOf(from) === folderOf(to)) return false;
      return rankOf(to) >= rankOf(from);
    });
    expect(breaches.map(({ from, to }) => `${from} imports ${to}`)).toEqual([]);
  });

  it('no file imports itself round a circle', () => {
    const graph = new Map<string, string[]>();
    for (const { from, to, typeOnly } of inside) {
      if (!typeOnly) graph.set(from, [...(graph.get(from) ?? []), to]);
    }
    expect(circlesOf(graph)).toEqual([]);
  });
});

describe('the core is pure', () => {
  const core = imports.filter(({ from }) => PURE.includes(folderOf(from)));

  it('reaches no file, network, process or worker', () => {
    expect(
      core.filter(({ to }) => to.startsWith('node:')).map(({ from, to }) => `${from} imports ${to}`),
    ).toEqual([]);
  });

  it('reads no clock, randomness or locale', () => {
    const forbidden =
      /\bDate\.now\(|new Date\(\)|Math\.random\(|performance\.now\(|toLocale\w+\(|\bIntl\.|process\./;
    const breaches = files
      .filter((file) => PURE.includes(folderOf(relative(SOURCE, file))))
      .filter((file) => forbidden.test(readFileSync(file, 'utf8')));
    expect(breaches.map((file) => relative(SOURCE, file))).toEqual([]);
  });

  it('the certificate imports nothing but the program record', () => {
    const parts = ['program/certificate.ts', 'program/dual-proof.ts', 'program/violation.ts'];
    const imported = imports.filter(({ from }) => parts.includes(from)).map(({ to }) => to);
    expect(imported).toContain('program/linear-program.ts');
    expect(imported.filter((to) => !parts.includes(to) && to !== 'program/linear-program.ts')).toEqual([]);
  });
});

it('only the solver folder names an engine package', () => {
  const engines = imports.filter(({ to }) => to === 'highs' || to === 'javascript-lp-solver');
  expect(engines.filter(({ from }) => folderOf(from) !== 'solver')).toEqual([]);
  expect(engines.length).toBeGreaterThan(0);
});

function circlesOf(graph: ReadonlyMap<string, readonly string[]>): string[] {
  const circles: string[] = [];
  const state = new Map<string, 'open' | 'done'>();
  const visit = (file: string, path: readonly string[]): void => {
    if (state.get(file) === 'done') return;
    if (state.get(file) === 'open') {
      circles.push([...path.slice(path.indexOf(file)), file].join(' → '));
      return;
    }
    state.set(file, 'open');
    for (const next of graph.get(file) ?? []) visit(next, [...path, file]);
    state.set(file, 'done');
  };
  for (const file of graph.keys()) visit(file, []);
  return circles;
}
