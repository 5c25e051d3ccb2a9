import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Services } from '../../src/cli/command.js';
import { sweepSchema } from '../../src/report/finance/sweep-schema.js';
import { builtProgram } from '../built-program.js';
import { generateScenario } from '../generate/plant.js';
import { run } from './recording-terminal.js';

let services: Services;
let folder: string;
let works: string;
const features = { uncertainty: true, response: false };
const document = { ...generateScenario(4, { months: 1, features }), discountRate: 0.05 };
const feed = document.feeds[0].id;

beforeAll(async () => {
  services = { planWorker: (await builtProgram()).planWorker };
  folder = mkdtempSync(join(tmpdir(), 'cutpoint-'));
  works = join(folder, 'works.json');
  writeFileSync(works, JSON.stringify(document));
}, 180_000);

afterAll(() => rmSync(folder, { recursive: true }));

describe('the questions of finance on the command line', () => {
  test('sweep prints a document that fits its schema, and writes CSV and SVG files', async () => {
    const [csv, svg] = [join(folder, 'csv'), join(folder, 'curve.svg')];
    const args = ['--of', `/feeds/${feed}/tippingFee`, '--factor', '--from', '0', '--to', '2'];
    const { code, out } = await run(['sweep', works, ...args, '--json', '--csv', csv, '--svg', svg], {
      services,
    });
    expect(code).toBe(0);
    expect(sweepSchema.parse(JSON.parse(out)).exact).toBe(true);
    expect(readdirSync(csv)).toEqual(['sweep-ranges.csv', 'sweep-tonnes.csv', 'sweep.csv']);
    expect(readFileSync(svg, 'utf8')).toMatch(/^<svg .*<\/svg>\n$/s);
  });

  test('fee, tornado, risk and compare answer in print', async () => {
    const asked: readonly (readonly [string[], string])[] = [
      [['fee', works, '--feed', `${feed}:20:60`, '--points', '3'], 'No fees in the ranges bring more than'],
      [['tornado', works, '--of', `/feeds/${feed}/tippingFee`], 'What matters most is'],
      [['risk', works, '--seed', '3', '--draws', '20'], 'draws have a plan (seed 3)'],
      [['compare', works, works], 'the margin moves by 0.00 EUR'],
    ];
    for (const [args, words] of asked) {
      const { code, out, err } = await run(args, { services });
      expect({ code, err }, args[0]).toEqual({ code: 0, err: '' });
      expect(out.replaceAll('\n', ' ')).toContain(words);
    }
  });

  test('every --json is a document that fits the schema of its name', async () => {
    const fee = `/feeds/${feed}/tippingFee`;
    const range = ['--factor', '--from', '0.5', '--to', '1.5'];
    const by = ['--by', fee, '--by-factor', '--by-from', '0.5', '--by-to', '1.5', '--rows', '2'];
    const asked: readonly (readonly [string, string[]])[] = [
      ['sweep', ['sweep', works, '--of', fee, ...range]],
      ['sweep', ['sweep', works, '--of', '/discountRate', '--from', '-2', '--to', '0.2', '--points', '5']],
      ['sweep-map', ['sweep', works, '--of', fee, ...range, ...by]],
      ['fee', ['fee', works, '--feed', `${feed}:20:60`, '--points', '3']],
      ['tornado', ['tornado', works, '--of', fee, '--of', '/discountRate=-2:0.1']],
      ['risk', ['risk', works, '--seed', '3', '--draws', '20', '--level', '0']],
      ['comparison', ['compare', works, works]],
    ];
    for (const [name, args] of asked) {
      const schema = JSON.parse((await run(['schema', name])).out);
      const validate = new Ajv2020({ strict: false }).compile(schema);
      const { code, out, err } = await run([...args, '--json'], { services });
      expect({ code, err }, args.join(' ')).toEqual({ code: 0, err: '' });
      const document = JSON.parse(out);
      expect(validate(document) ? [] : validate.errors, args.join(' ')).toEqual([]);
      expect(schema.title).toBe(document.format);
      expect(validate({ ...document, format: 'other/1' })).toBe(false);
      expect(validate({ ...document, more: 1 })).toBe(false);
    }
  });

  test('of two scenarios the one without a plan is named', async () => {
    const impossible = join(folder, 'impossible.json');
    const feeds = document.feeds.map((one) => ({ ...one, committed: 1e6, available: 1e6 }));
    writeFileSync(impossible, JSON.stringify({ ...document, feeds }));
    const { code, err } = await run(['compare', works, impossible], { services });
    expect({ code, err }).toEqual({
      code: 3,
      err: `${impossible}: No plan meets all the limits of this scenario together.\n`,
    });
  });

  test.each([
    [['sweep', 'FILE', '--from', '0', '--to', '1'], 'Give --of'],
    [['sweep', 'FILE', '--of', '/a', '--from', 'low', '--to', '1'], '--from takes a number'],
    [['fee', 'FILE', '--feed', 'haulers'], 'ID:LOW:HIGH'],
    [['tornado', 'FILE', '--of', '/a=1'], 'POINTER=LOW:HIGH'],
    [['risk', 'FILE'], 'Give --seed'],
  ])('%j is refused with what is wrong', async (args, words) => {
    const { code, out, err } = await run(
      args.map((word) => (word === 'FILE' ? works : word)),
      { services },
    );
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toContain(words);
  });

  test('a pointer that leads nowhere ends with 2 and the pointer', async () => {
    const { code, err } = await run(
      ['sweep', works, '--of', '/outlets/nobody/price', '--from', '0', '--to', '1'],
      { services },
    );
    expect(code).toBe(2);
    expect(err).toContain('/outlets/nobody/price leads nowhere');
  });

  test('ctrl-C keeps what is found, marked as a part, or says that nothing was', async () => {
    const out = join(folder, 'stopped');
    const {
      code,
      out: text,
      err,
    } = await run(['risk', works, '--seed', '3', '--draws', '20000', '--csv', out], {
      services,
      onListen: (interrupt) => setTimeout(interrupt, 3000),
    });
    if (code === 0) expect(text).toContain('this is a part of the answer');
    else
      expect({ code, err, files: existsSync(out) }).toEqual({
        code: 4,
        err: 'Stopped before anything was found.\n',
        files: false,
      });
  });
});
