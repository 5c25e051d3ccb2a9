import { spawnSync } from 'node:child_process';
import { chmodSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { builtProgram } from './built-program.js';

const ROOT = fileURLToPath(new URL('..', import.meta.url));
const README = readFileSync(join(ROOT, 'README.md'), 'utf8');
const EXAMPLES = [...README.matchAll(/^cutpoint .*$/gm)].map(([line]) => line);

let folder: string;

/** A folder with the shipped scenarios and with `cutpoint` on the path. */
beforeAll(async () => {
  const { main } = await builtProgram();
  folder = mkdtempSync(join(tmpdir(), 'cutpoint-'));
  symlinkSync(join(ROOT, 'scenarios'), join(folder, 'scenarios'));
  const program = join(folder, 'cutpoint');
  writeFileSync(program, `#!/bin/sh\nexec "${process.execPath}" "${main}" "$@"\n`);
  chmodSync(program, 0o755);
}, 180_000);

afterAll(() => rmSync(folder, { recursive: true }));

describe("the README's examples", () => {
  test('are there', () => {
    for (const command of ['plan', 'check', 'schema']) {
      expect(EXAMPLES.some((line) => line.startsWith(`cutpoint ${command}`))).toBe(true);
    }
  });

  test.each(EXAMPLES)('%s', (line) => {
    const { status, stderr } = spawnSync('sh', ['-c', line], {
      cwd: folder,
      encoding: 'utf8',
      env: { ...process.env, PATH: `${folder}${delimiter}${process.env.PATH}` },
      maxBuffer: 1e8,
    });
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
  });
});

test("the README's npm commands are scripts of the package", () => {
  const { scripts } = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8'));
  const named = [...README.matchAll(/npm (?:run (?:-s )?)?([a-z:]+)/g)].map(([, name]) => name);
  const own = named.filter((name) => name !== 'ci' && name !== 'link' && name !== 'run');
  expect(own).toContain('plan');
  for (const name of own) expect(Object.keys(scripts)).toContain(name);
});
