import { describe, expect, it } from 'vitest';
import { explanationSchema } from '../../src/report/explain/explain-schema.js';
import { generateInfeasibleScenario } from '../generate/infeasible.js';
import { generateScenario } from '../generate/plant.js';
import { run } from './recording-terminal.js';

describe('cutpoint explain', () => {
  it('prints why the plan is as it is', async () => {
    const { code, out, err } = await run(['explain', '-'], { input: JSON.stringify(generateScenario(4)) });
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toContain('WHAT BINDS');
    expect(out).toContain('HOW FIRM THE PLAN IS');
    expect(out.split('\n').every((line) => line.length <= 100)).toBe(true);
  });

  it('--json prints one document that fits its schema', async () => {
    const input = JSON.stringify(generateScenario(4));
    const { code, out } = await run(['explain', '--json', '-'], { input });
    expect(code).toBe(0);
    expect(explanationSchema.parse(JSON.parse(out)).status).toBe('explained');
  });

  it('says without a plan what cannot all hold, and ends with code 3', async () => {
    const { scenario } = generateInfeasibleScenario(3, 'hard minimum above the supply');
    const input = JSON.stringify(scenario);
    const printed = await run(['explain', '-'], { input });
    expect(printed.code).toBe(3);
    expect(printed.err).toContain('The least that has to give');
    const json = await run(['explain', '--json', '-'], { input });
    expect(explanationSchema.parse(JSON.parse(json.out)).status).toBe('infeasible');
    const planned = await run(['plan', '-'], { input });
    expect(planned.code).toBe(3);
    expect(planned.err).toContain('The least that has to give');
  });

  it('a plan ends with a few sentences on why', async () => {
    const { out } = await run(['plan', '-'], { input: JSON.stringify(generateScenario(4)) });
    expect(out).toMatch(/\nWHY\n[^\n]+\n/);
  });

  it('says so for a broken scenario with code 2', async () => {
    const { code } = await run(['explain', '-'], { input: '{}' });
    expect(code).toBe(2);
  });
});
