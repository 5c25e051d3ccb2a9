import { spawn, spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type BuiltProgram, builtProgram } from '../built-program.js';
import { SHIFT_WORKS, SMALL_WORKS } from '../report/small-works.js';
import { run } from './recording-terminal.js';

let program: BuiltProgram;
let folder: string;
let works: string;
let shifts: string;

beforeAll(async () => {
  program = await builtProgram();
  folder = mkdtempSync(join(tmpdir(), 'cutpoint-'));
  works = join(folder, 'works.json');
  shifts = join(folder, 'shifts.json');
  writeFileSync(works, JSON.stringify(SMALL_WORKS));
  writeFileSync(shifts, JSON.stringify(SHIFT_WORKS));
}, 180_000);

afterAll(() => rmSync(folder, { recursive: true }));

function start(args: readonly string[], options: { env?: Record<string, string>; input?: string } = {}) {
  return spawnSync(process.execPath, [program.main, ...args], {
    encoding: 'utf8',
    input: options.input,
    env: { ...process.env, ...options.env },
    maxBuffer: 1e8,
  });
}

describe('the built program', () => {
  test('prints the same bytes in every time zone and language', () => {
    const settings: Record<string, string>[] = [
      { TZ: 'UTC', LANG: 'C', LC_ALL: 'C' },
      { TZ: 'Pacific/Auckland', LANG: 'de_DE.UTF-8', LC_ALL: 'de_DE.UTF-8' },
      { TZ: 'America/St_Johns', LANG: 'hi_IN.UTF-8', LC_ALL: 'hi_IN.UTF-8', NO_COLOR: '1' },
    ];
    const runs = settings.map((env) => start(['plan', works], { env }));
    expect(runs.map(({ status, stderr }) => ({ status, stderr }))).toEqual(
      settings.map(() => ({ status: 0, stderr: '' })),
    );
    expect(new Set(runs.map(({ stdout }) => stdout)).size).toBe(1);
    expect(runs[0].stdout).toContain('No plan earns more than');
  });

  test('reads standard input, and ends with 2 and words on standard error where it is no scenario', () => {
    const { status, stdout, stderr } = start(['check', '-'], { input: '[]' });
    expect({ status, stdout }).toEqual({ status: 2, stdout: '' });
    expect(stderr).toContain('problem');
  });

  test('ends quietly when whoever reads the output goes away', async () => {
    const child = spawn(process.execPath, [program.main, 'plan', works, '--json'], {
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    let err = '';
    child.stderr.on('data', (chunk) => {
      err += chunk;
    });
    child.stdout.destroy();
    const code = await new Promise((resolve) => child.on('close', resolve));
    expect({ code, err }).toEqual({ code: 0, err: '' });
  });

  test('plans whole shifts', () => {
    const { status, stdout } = start(['plan', shifts, '--json']);
    expect(status).toBe(0);
    const { status: answered, months } = JSON.parse(stdout);
    expect(answered).toBe('optimal');
    for (const { shifts: called } of months[0].crews[0].windows) expect(Number.isInteger(called)).toBe(true);
  });
});

describe('a solve with whole shifts, in a worker', () => {
  test('takes ctrl-C: the best plan so far, or no certified answer, never an unproved one', async () => {
    const { code, out } = await run(['plan', shifts, '--json'], {
      services: { planWorker: program.planWorker },
      onListen: (interrupt) => interrupt(),
    });
    const { status, certificate } = JSON.parse(out);
    if (code === 0)
      expect({ status, accepted: certificate.accepted }).toEqual({ status: 'stopped', accepted: true });
    else expect({ code, status }).toEqual({ code: 4, status: 'no certified answer' });
  });

  test('gives the same plan as in this process', async () => {
    const { out } = await run(['plan', shifts, '--json', '--progress'], {
      services: { planWorker: program.planWorker },
    });
    const processed = start(['plan', shifts, '--json']);
    expect(JSON.parse(out).presentValue).toBe(JSON.parse(processed.stdout).presentValue);
  });

  test('a worker that cannot start is an error, not an answer', async () => {
    const nowhere = { planWorker: new URL('file:///nowhere/plan-worker.js') };
    await expect(run(['plan', shifts], { services: nowhere })).rejects.toThrow();
  });
});
