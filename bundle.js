import { build } from 'rolldown';

/** The programs that are started by themselves: the command line, and what runs in worker threads. */
const PROGRAMS = [
  'cli/main',
  'host/plan-worker',
  'host/analysis-worker',
  'host/question-worker',
  'host/solve-worker',
];

/** They find files of their own beside themselves, or are asked for by few. */
const APART = ['highs', 'javascript-lp-solver', 'piscina', 'write-excel-file'];

// What tsc made of the sources, in few files: loading hundreds of modules takes longer than planning a month.
await build({
  input: Object.fromEntries(PROGRAMS.map((name) => [name, `dist/modules/${name}.js`])),
  platform: 'node',
  external: [/^node:/, ...APART.map((name) => new RegExp(`^${name}(/|$)`))],
  output: { dir: 'dist', format: 'esm', entryFileNames: '[name].js', chunkFileNames: 'parts/[name].js' },
  logLevel: 'warn',
});
