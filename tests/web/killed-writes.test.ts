import { spawn } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { ScenarioFolder } from '../../src/web/storage/scenario-folder.js';
import { builtProgram } from '../built-program.js';

const WRITES = 200;
const NAMES = ['one', 'two', 'three', 'four'];

/** Kilobytes of filler, so that a write takes many pages. */
const FILLER = 200_000;

let folder: string;
let storage: string;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'cutpoint-killed-'));
  const { main } = await builtProgram();
  storage = pathToFileURL(join(main, '../../modules/web/storage/scenario-folder.js')).href;
}, 180_000);

afterAll(() => rmSync(folder, { recursive: true }));

/** Writes number n into the scenarios in turn, and says when each write is done. */
const WRITER = `
import { writeSync } from 'node:fs';
const [storage, folder, first, last, filler] = process.argv.slice(1);
const { ScenarioFolder } = await import(storage);
const scenarios = await ScenarioFolder.open(folder, 1e7);
const names = ${JSON.stringify(NAMES)};
for (let n = Number(first); n < Number(last); n++) {
  const text = JSON.stringify({ n, filler: String.fromCharCode(97 + (n % 26)).repeat(Number(filler)), end: n });
  const name = names[n % names.length];
  const file = await scenarios.read(name);
  const expected = file.kind === 'file' ? { kind: 'version', etags: [file.etag] } : { kind: 'nothing' };
  writeSync(1, 'begin ' + n + '\\n');
  const outcome = await scenarios.write(name, Buffer.from(text), expected);
  if (outcome.kind !== 'created' && outcome.kind !== 'replaced') throw new Error(outcome.kind);
  writeSync(1, 'done ' + n + '\\n');
}
`;

test('killed in the middle of 200 writes, every scenario is the old one or the new one, whole', async () => {
  const stored = new Map<string, number>();
  let [next, kills] = [0, 0];
  while (next < WRITES) {
    const said = await writeUntilKilled(next, kills);
    for (const n of said.done) stored.set(NAMES[n % NAMES.length], n);
    const begun = said.begun.filter((n) => !said.done.includes(n));
    for (const name of NAMES) {
      const file = readdirSync(folder).includes(`${name}.json`)
        ? readFileSync(join(folder, `${name}.json`), 'utf8')
        : undefined;
      const old = stored.get(name);
      const may = [old, ...begun.filter((n) => NAMES[n % NAMES.length] === name)];
      expect(may).toContain(file === undefined ? undefined : numberIn(file));
      if (file !== undefined) stored.set(name, numberIn(file));
    }
    next = Math.max(next, ...said.begun.map((n) => n + 1));
    if (said.isKilled) kills += 1;
  }
  expect(kills).toBeGreaterThanOrEqual(5);
  await ScenarioFolder.open(folder, 1e7);
  expect(readdirSync(folder).sort()).toEqual(['.history', ...NAMES.map((name) => `${name}.json`)].sort());
});

/** The number of a file that is whole. */
function numberIn(text: string): number {
  const { n, filler, end } = JSON.parse(text);
  expect({ end, length: filler.length, letter: filler.replaceAll(filler[0], '') }).toEqual({
    end: n,
    length: FILLER,
    letter: '',
  });
  return n;
}

async function writeUntilKilled(first: number, kills: number) {
  const child = spawn(
    process.execPath,
    ['--input-type=module', '-e', WRITER, storage, folder, String(first), String(WRITES), String(FILLER)],
    { stdio: ['ignore', 'pipe', 'pipe'] },
  );
  let [out, err] = ['', ''];
  child.stderr.on('data', (chunk) => {
    err += chunk;
  });
  const exited = new Promise<NodeJS.Signals | null>((resolve) =>
    child.on('close', (_, signal) => resolve(signal)),
  );
  const begun = new Promise<void>((resolve) => {
    child.stdout.on('data', (chunk) => {
      out += chunk;
      // At another point of a write each time.
      if (out.split('begin').length > 15 + 3 * kills) resolve();
    });
  });
  await Promise.race([begun, exited]);
  await setTimeout(kills % 7);
  child.kill('SIGKILL');
  const signal = await exited;
  expect(err).toBe('');
  const numbers = (word: string) =>
    [...out.matchAll(new RegExp(`${word} (\\d+)\\n`, 'g'))].map(([, n]) => Number(n));
  return { begun: numbers('begin'), done: numbers('done'), isKilled: signal === 'SIGKILL' };
}
