import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { sampleScenario } from '../scenario/sample.js';
import { run } from './recording-terminal.js';

let folder: string;
const file = (name: string, text: string) => {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
};

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'cutpoint-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

describe('cutpoint plant', () => {
  it('prints every step with its machine, and within 100 columns', async () => {
    const scenario = sampleScenario();
    const { code, out } = await run(['plant', file('sample.json', JSON.stringify(scenario))]);
    expect(code).toBe(0);
    for (const step of scenario.steps) expect(out).toContain(step.name ?? step.id);
    expect(Math.max(...out.split('\n').map((line) => line.length))).toBeLessThanOrEqual(100);
  });

  it('draws the flow of materials', async () => {
    const { code, out } = await run([
      'plant',
      file('sample.json', JSON.stringify(sampleScenario())),
      '--svg',
    ]);
    expect(code).toBe(0);
    expect(out).toMatch(/^<svg [^>]*xmlns=.*<\/svg>\n$/s);
  });

  it('tells what is wrong with a bad one', async () => {
    const { code, out, err } = await run(['plant', file('bad.json', '{}')]);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toContain('/format');
  });
});

describe('cutpoint fit', () => {
  it('finds the distribution that a table was made from', async () => {
    // F(d) = 1 − exp(−(d / 2)^1.5) at 1, 2 and 4 mm: 29.78, 63.21 and 94.09 percent.
    const table = 'opening,passing\n1 mm,29.7811\n2 mm,63.2121\n4 mm,94.0895\n';
    const { code, out } = await run(['fit', file('sieve.csv', table), '--json']);
    expect(code).toBe(0);
    const { d63, n, rms } = JSON.parse(out);
    expect(d63).toBeCloseTo(2, 4);
    expect(n).toBeCloseTo(1.5, 4);
    expect(rms).toBeLessThan(1e-5);
    const printed = await run(['fit', file('sieve.csv', table)]);
    expect(printed.out).toContain('d63 2.0000 mm, n 1.5000');
  });

  it('names the lines that it cannot read', async () => {
    const { code, err } = await run(['fit', file('sieve.csv', '1 mm,30\nNo. 31,60\n4 mm,x\n')]);
    expect(code).toBe(2);
    expect(err).toMatch(/line 2: .*line 3: /s);
  });
});
