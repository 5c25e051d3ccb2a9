import { Ajv2020 } from 'ajv/dist/2020.js';
import { beforeAll, describe, expect, it } from 'vitest';
import { planMonths } from '../../../src/analysis/monthly-plan.js';
import { sweep } from '../../../src/analysis/sweep/sweep.js';
import { derivePlant } from '../../../src/plant/derive-plant.js';
import { FINANCE_JSON_SCHEMAS } from '../../../src/report/finance/json-schemas.js';
import { printReport, reportCsv } from '../../../src/report/finance/question-report.js';
import { sweepDocument } from '../../../src/report/finance/sweep-document.js';
import { sweepReport } from '../../../src/report/finance/sweep-report.js';
import { type SweepDocument, sweepSchema } from '../../../src/report/finance/sweep-schema.js';
import { loadSolver, type Solver } from '../../../src/solver/choose.js';
import { exactCase } from '../../analysis/sweep/cases.js';

const total = (masses: Readonly<Record<string, number>>) =>
  Object.values(masses).reduce((sum, mass) => sum + mass, 0);

describe('the document of a sweep', () => {
  let solver: Solver;
  beforeAll(async () => {
    solver = await loadSolver('highs');
  });

  const documentOf = (seed: number): SweepDocument => {
    const one = exactCase(seed);
    const answer = sweep(one.document, one, solver);
    if (answer.status === 'problems') throw new Error('problems');
    return sweepDocument(one.document, derivePlant(one.document), one, answer);
  };

  it('fits its schema and the JSON Schema that is made of it', () => {
    const validate = new Ajv2020({ strict: false }).compile(FINANCE_JSON_SCHEMAS.sweep());
    for (const seed of [6, 11, 30, 38]) {
      const document = JSON.parse(JSON.stringify(documentOf(seed)));
      expect(sweepSchema.safeParse(document).error?.issues ?? []).toEqual([]);
      expect(validate(document) ? [] : validate.errors).toEqual([]);
    }
  });

  it('has the ends and every breakpoint among its points, each breakpoint with what changes, in words', () => {
    const { points, exact } = documentOf(11);
    expect(exact).toBe(true);
    expect([points[0].kind, points.at(-1)?.kind]).toEqual(['end', 'end']);
    expect([points[0].slopeLeft, points.at(-1)?.slopeRight]).toEqual([null, null]);
    for (const [i, point] of points.entries()) {
      if (i > 0)
        expect(point.slopeLeft).toBeCloseTo(
          (point.value - points[i - 1].value) / (point.at - points[i - 1].at),
          3,
        );
      if (point.kind === 'breakpoint') expect(point.change).not.toBe('');
    }
  });

  it('has at every point the tonnes of the best plan on either side, of which what comes in leaves', () => {
    for (const seed of [6, 11, 30, 38]) {
      const { points, exact } = documentOf(seed);
      expect(exact).toBe(true);
      expect([points[0].tonnesLeft, points.at(-1)?.tonnesRight]).toEqual([null, null]);
      points.forEach(({ kind, tonnesLeft, tonnesRight }) => {
        const told = [tonnesLeft, tonnesRight].flatMap((tonnes) => tonnes ?? []);
        expect(told).toHaveLength(kind === 'end' ? 1 : 2);
        for (const { received, sold, delivered, disposed, rungs } of told) {
          for (const mass of Object.values(received)) expect(mass).toBeGreaterThanOrEqual(-1e-6);
          expect(total(rungs)).toBeLessThanOrEqual(total(sold) + total(delivered) + total(disposed) + 1e-6);
        }
      });
    }
  });

  it('tells the tonnes of a fresh plan where the curve stands', () => {
    const one = exactCase(11);
    const { points, of } = documentOf(11);
    const k = points.findIndex(({ at }, i) => at <= of.own! && of.own! <= (points[i + 1]?.at ?? -1));
    const fresh = planMonths(derivePlant(one.document), solver);
    if (fresh.status !== 'optimal') throw new Error('no plan');
    const share = (of.own! - points[k].at) / (points[k + 1].at - points[k].at);
    const [right, left] = [points[k].tonnesRight!, points[k + 1].tonnesLeft!];
    for (const { id } of one.document.feeds) {
      const mass = fresh.plan.months
        .flatMap(({ receipts }) => receipts)
        .reduce((sum, each) => sum + (each.feed === id ? each.mass : 0), 0);
      expect(right.received[id] + share * (left.received[id] - right.received[id])).toBeCloseTo(mass, 4);
    }
  });

  it('goes out as CSV, as print and as a chart, all of one curve', () => {
    const document = documentOf(30);
    const report = sweepReport(document);
    const csv = reportCsv(report).find(({ name }) => name === 'sweep.csv')!;
    expect(csv.text.split('\r\n')).toHaveLength(document.points.length + 2);
    expect(printReport(report)).toContain('The curve is exact');
    expect(report.charts.map(({ name }) => name)).toEqual(['sweep', 'sweep-tonnes']);
    const rings = report.charts[0].svg.match(/class="mark"/g) ?? [];
    expect(rings).toHaveLength(document.points.filter(({ kind }) => kind === 'breakpoint').length);
  });
});
