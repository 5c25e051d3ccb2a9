import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, rmdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';

const ROOT = fileURLToPath(new URL('..', import.meta.url));

/** The program as `npm ci` leaves it, for tests of processes and worker threads. */
export interface BuiltProgram {
  readonly main: string;
  readonly planWorker: URL;
}

/** The built program; built first where the sources are newer. One test file at a time builds. */
export async function builtProgram(): Promise<BuiltProgram> {
  const lock = join(ROOT, 'node_modules', '.cutpoint-build');
  while (!tryLock(lock)) await setTimeout(200);
  try {
    if (isStale()) {
      // Type errors are for the check of types: what was emitted is what is tested here.
      for (const project of ['tsconfig.json', 'src/web/assets/tsconfig.json']) {
        spawnSync(process.execPath, ['node_modules/typescript/bin/tsc', '-p', project], { cwd: ROOT });
      }
      spawnSync(process.execPath, ['bundle.js'], { cwd: ROOT });
    }
  } finally {
    rmdirSync(lock);
  }
  return {
    main: join(ROOT, 'dist/cli/main.js'),
    planWorker: new URL('../dist/host/plan-worker.js', import.meta.url),
  };
}

function tryLock(lock: string): boolean {
  try {
    mkdirSync(lock);
    return true;
  } catch {
    // A test run that was killed leaves its lock behind.
    if (Date.now() - statSync(lock).mtimeMs > 120_000) rmdirSync(lock);
    return false;
  }
}

function isStale(): boolean {
  const main = join(ROOT, 'dist/cli/main.js');
  return !existsSync(main) || newest(join(ROOT, 'src')) > newest(join(ROOT, 'dist'));
}

function newest(folder: string): number {
  const files = readdirSync(folder, { recursive: true, withFileTypes: true }).filter((entry) =>
    entry.isFile(),
  );
  return Math.max(...files.map((entry) => statSync(join(entry.parentPath, entry.name)).mtimeMs));
}
