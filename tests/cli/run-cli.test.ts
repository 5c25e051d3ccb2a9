import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { parse } from 'csv-parse/sync';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { PlannedDocument } from '../../src/report/plan-document.js';
import { SMALL_WORKS } from '../report/small-works.js';
import { run } from './recording-terminal.js';

let folder: string;
const file = (name: string) => join(folder, name);

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'cutpoint-'));
  writeFileSync(file('works.json'), JSON.stringify(SMALL_WORKS));
  const committed = [{ ...SMALL_WORKS.feeds[0], committed: 5000, available: 5000 }];
  writeFileSync(file('too-much.json'), JSON.stringify({ ...SMALL_WORKS, feeds: committed }));
  const wrong = {
    ...SMALL_WORKS,
    title: 7,
    stores: [{ ...SMALL_WORKS.stores![0], materials: ['car-tyres'] }],
  };
  writeFileSync(file('wrong.json'), JSON.stringify(wrong));
  writeFileSync(file('latin.json'), new Uint8Array([0x7b, 0x22, 0xe9, 0x22, 0x7d]));
});

afterAll(() => rmSync(folder, { recursive: true }));

describe('cutpoint plan', () => {
  test('prints the plan on standard output and ends with 0', async () => {
    const { code, out, err } = await run(['plan', file('works.json')]);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toContain('No plan earns more than');
    expect(out).toContain('A plan on paper is no permit');
  });

  test('--json prints one document that keeps to the schema that cutpoint schema prints', async () => {
    const { out } = await run(['plan', file('works.json'), '--json']);
    const schema = JSON.parse((await run(['schema', 'plan'])).out);
    const valid = new Ajv2020({ strict: true }).compile(schema);
    expect(valid(JSON.parse(out)), JSON.stringify(valid.errors)).toBe(true);
    expect(JSON.parse(out).scenarioDigest).toMatch(/^sha256:[0-9a-f]{64}$/);
  });

  test('reads standard input for -', async () => {
    const { code, out } = await run(['plan', '-', '--json'], { input: JSON.stringify(SMALL_WORKS) });
    expect(code).toBe(0);
    expect(JSON.parse(out).title).toBe(SMALL_WORKS.title);
  });

  test('both engines come to the same present value', async () => {
    const values = await Promise.all(
      ['javascript-lp-solver', 'highs'].map(async (engine) => {
        const { out } = await run(['plan', file('works.json'), '--json', '--engine', engine]);
        const document = JSON.parse(out) as PlannedDocument;
        expect(document.engine.name).toBe(engine);
        return document;
      }),
    );
    const [a, b] = values;
    expect(Math.abs(a.presentValue - b.presentValue)).toBeLessThan(1e-6 * a.statement.scale);
  });

  test('--csv writes its tables into a directory that it makes', async () => {
    const { code, out } = await run(['plan', file('works.json'), '--csv', file('a/b')]);
    expect(code).toBe(0);
    expect(out).toContain('LADDER');
    expect(readdirSync(file('a/b')).sort()).toContain('statement.csv');
    const rows: string[][] = parse(readFileSync(file('a/b/cash.csv'), 'utf8'));
    expect(rows).toHaveLength(1 + 3 + 1);
  });

  test('--month prints the details of a month', async () => {
    const { out } = await run(['plan', file('works.json'), '--month', '2027-12']);
    expect(out).toContain('--- 2027-12 ---');
    expect(out).not.toContain('--- 2027-11 ---');
  });

  test('no feasible plan: 3, the reason on standard error, a document with --json', async () => {
    const { code, out, err } = await run(['plan', file('too-much.json')]);
    expect({ code, out }).toEqual({ code: 3, out: '' });
    expect(err).toContain('No plan meets all the limits');
    const json = await run(['plan', file('too-much.json'), '--json']);
    expect(json.code).toBe(3);
    expect(JSON.parse(json.out).status).toBe('infeasible');
  });

  test('no certified answer within the limits: 4', async () => {
    const { code, out, err } = await run(['plan', file('works.json'), '--json', '--time-limit', '1e-9']);
    expect(code).toBe(4);
    expect(JSON.parse(out).status).toBe('no certified answer');
    expect(err).toContain('No engine gave an answer within the limits');
  });

  test('bad input: 2, and every problem with pointer, what is wrong and what to do', async () => {
    const { code, out, err } = await run(['plan', file('wrong.json')]);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toContain('/title');
    expect(err).toContain('/stores/0/materials/0');
    expect(err).toContain('2 problems.');
  });
});

describe('cutpoint check', () => {
  test('ends with 0 and an empty list when all is well', async () => {
    const { code, out } = await run(['check', file('works.json'), '--json']);
    expect(code).toBe(0);
    expect(JSON.parse(out).problems).toEqual([]);
  });

  test('ends with 2 and lists pointer, code, message and remedy', async () => {
    const { code, out } = await run(['check', file('wrong.json'), '--json']);
    expect(code).toBe(2);
    const { problems } = JSON.parse(out);
    expect(problems.map((problem: { pointer: string }) => problem.pointer)).toEqual([
      '/title',
      '/stores/0/materials/0',
    ]);
    for (const problem of problems)
      expect(Object.keys(problem).sort()).toEqual(['code', 'message', 'pointer', 'remedy']);
  });

  test('says in words that nothing is wrong, and what is', async () => {
    expect((await run(['check', file('works.json')])).out).toContain('Nothing is wrong.');
    const { code, err } = await run(['check', file('wrong.json')]);
    expect(code).toBe(2);
    expect(err).toContain('/title');
  });
});

describe('cutpoint schema', () => {
  test.each([[[]], [['scenario']]])('prints the schema of a scenario: %j', async (words) => {
    const schema = JSON.parse((await run(['schema', ...words])).out);
    expect(schema.$schema).toBe('https://json-schema.org/draft/2020-12/schema');
    const valid = new Ajv2020({ strict: false, validateFormats: false }).compile(schema);
    expect(valid(SMALL_WORKS), JSON.stringify(valid.errors)).toBe(true);
    expect(valid({ ...SMALL_WORKS, units: 'kg' })).toBe(false);
  });
});

describe('files that cannot be read or written end with 2 and say why', () => {
  test.each([
    ['a missing file', ['plan', 'nowhere/at-all.json'], 'no such file'],
    ['a directory', ['plan', '.'], 'it is a directory'],
  ])('%s', async (_, argv, why) => {
    const { code, out, err } = await run(argv);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toContain(why);
  });

  test('bytes that are not UTF-8', async () => {
    const { code, err } = await run(['check', file('latin.json')]);
    expect(code).toBe(2);
    expect(err).toContain('not UTF-8');
  });

  test('text that is not JSON', async () => {
    const { code, err } = await run(['check', '-'], { input: '{ "a": 1,, }' });
    expect(code).toBe(2);
    expect(err).toContain('not JSON');
  });

  test('a place for CSV files that is a file', async () => {
    const { code, err } = await run(['plan', file('works.json'), '--csv', file('works.json')]);
    expect(code).toBe(2);
    expect(err).toContain('cannot write');
  });
});

describe('wrong usage ends with 2 and points to the help', () => {
  test.each([
    [[], 'Say what to do'],
    [['paln'], "no command 'paln'"],
    [['constructor'], "no command 'constructor'"],
    [['plan'], 'the file of a scenario'],
    [['plan', 'a', 'b'], 'Too many words: b'],
    [['plan', 'a', '--nope'], "Unknown option '--nope'"],
    [['plan', 'a', '--gap'], '--gap'],
    [['plan', 'a', '--gap', 'much'], '--gap takes a number above 0'],
    [['plan', 'a', '--gap', '0'], '--gap takes a number above 0'],
    [['plan', 'a', '--time-limit', '-1'], '--time-limit'],
    [['plan', 'a', '--engine', 'magic'], 'auto, javascript-lp-solver, highs'],
    [['schema', 'tire'], 'scenario, plan'],
    [['check', 'a', '--csv', 'b'], "Unknown option '--csv'"],
  ])('%j', async (argv, message) => {
    const { code, out, err } = await run(argv);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toContain(message);
    expect(err).toContain('--help');
  });

  test('a month that the plan has not', async () => {
    const { code, err } = await run(['plan', file('works.json'), '--month', '2031-01']);
    expect(code).toBe(2);
    expect(err).toContain('--month takes a month of the scenario');
  });
});

describe('help', () => {
  test.each([['plan'], ['check'], ['schema']])('cutpoint %s --help says how it is used', async (command) => {
    const { code, out } = await run([command, '--help']);
    expect(code).toBe(0);
    expect(out).toMatch(new RegExp(`^Usage: cutpoint ${command}`));
    expect(out.split('\n').every((line) => line.length <= 100)).toBe(true);
  });

  test('lists the commands, and the version is that of the package', async () => {
    const { out } = await run(['--help']);
    for (const command of ['plan', 'check', 'schema']) expect(out).toContain(command);
    const { version } = JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8'));
    expect((await run(['--version'])).out).toBe(`${version}\n`);
  });
});
