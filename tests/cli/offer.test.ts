import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { offerSchema } from '../../src/report/offer-schema.js';
import { offerSetsSchema } from '../../src/report/offer-sets-schema.js';
import { shredOffer } from '../analysis/offer/judged.js';
import { type BuiltProgram, builtProgram } from '../built-program.js';
import { tinyScenario } from '../planning/tiny-plant.js';
import { run } from './recording-terminal.js';

let services: BuiltProgram;
let folder: string;
const file = (name: string, content: unknown) => {
  const path = join(folder, name);
  writeFileSync(path, JSON.stringify(content));
  return path;
};

beforeAll(async () => {
  services = await builtProgram();
  folder = mkdtempSync(join(tmpdir(), 'cutpoint-'));
}, 180_000);
afterAll(() => rmSync(folder, { recursive: true }));

describe('cutpoint offer', () => {
  const offers = [
    shredOffer({ id: 'a', price: 40, monthly: { min: 20, max: 20 } }),
    shredOffer({ id: 'b', price: 45, monthly: { min: 20, max: 20 } }),
  ];

  it('judges an offer of the scenario, and one in a file of its own, alike', async () => {
    const scenario = file('tiny.json', tinyScenario({ offers }));
    const [listed] = offers;
    const own = file('own.json', { ...listed, id: 'own', name: 'a' });
    const runs = [
      await run(['offer', scenario, 'a'], { services }),
      await run(['offer', scenario, own], { services }),
    ];
    for (const { code, out, err } of runs) {
      expect({ code, err }).toEqual({ code: 0, err: '' });
      expect(out).toContain('a, Invented: TAKE.');
      expect(out).toContain('breaks even at 30.00 EUR/tonne');
    }
  });

  it('prints the document of its schema as JSON', async () => {
    const { code, out } = await run(
      [
        'offer',
        file('json.json', tinyScenario({ offers })),
        'b',
        '--json',
        '--margin',
        '100',
        '--if',
        '{"price":50}',
      ],
      { services },
    );
    expect(code).toBe(0);
    const document = offerSchema.parse(JSON.parse(out));
    expect(document).toMatchObject({ format: 'cutpoint-offer/1', status: 'judged', askedMargin: 100 });
  });

  it('says which of several to sign', async () => {
    const { code, out } = await run(['offer', file('set.json', tinyScenario({ offers })), 'a', 'b'], {
      services,
    });
    expect(code).toBe(0);
    expect(out).toContain('Sign b: 300.00 EUR (present value) above signing nothing.');
  });

  it('prints the set as JSON of its schema, each share and loss in it', async () => {
    const scenario = file('set-json.json', tinyScenario({ offers }));
    const { code, out } = await run(['offer', scenario, 'a', 'b', '--share', 'a', '--json'], { services });
    expect(code).toBe(0);
    const { best, losses } = offerSetsSchema.parse(JSON.parse(out));
    expect(best.offers).toEqual([
      { offer: 'a', share: expect.closeTo(0.6, 9) as number },
      { offer: 'b', share: 1 },
    ]);
    expect(losses.map(({ offer }) => offer)).toEqual(['a', 'b']);
  });

  it('tells what is wrong with an offer by its own pointer', async () => {
    const scenario = file('bad.json', tinyScenario());
    const offer = file('bad-offer.json', { ...shredOffer(), price: 'much' });
    const { code, err } = await run(['offer', scenario, offer], { services });
    expect(code).toBe(2);
    expect(err).toContain('/price');
    expect(err).not.toContain('/contracts');
    const missing = await run(['offer', scenario, 'nobody'], { services });
    expect(missing.code).toBe(2);
    expect(missing.err).toContain("no offer 'nobody'");
  });
});
