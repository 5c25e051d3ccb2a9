import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lines, spread } from '../../../src/report/charts/labels.js';
import { ladderChart } from '../../../src/report/charts/ladder-chart.js';
import { ladderFigures } from '../../../src/report/ladder-figures.js';
import { plannedDocumentOf, SMALL_WORKS } from '../small-works.js';

describe('labels along a line', () => {
  it('keep their order, overlap none, and stay between the ends', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0, max: 900, noNaN: true }), { maxLength: 12 }), (wanted) => {
        const sorted = [...wanted].sort((a, b) => a - b);
        const places = spread(sorted, [0, 900], 70);
        for (const [i, place] of places.entries()) {
          expect(place).toBeGreaterThanOrEqual(35 - 1e-9);
          expect(place).toBeLessThanOrEqual(865 + 1e-9);
          if (i > 0) expect(place - places[i - 1]).toBeGreaterThanOrEqual(70 - 1e-9);
        }
      }),
      { seed: 11 },
    );
  });

  it('stand where they belong when there is room', () => {
    expect(spread([100, 400, 700], [0, 900], 70)).toEqual([100, 400, 700]);
  });

  it('are broken at words, and end in an ellipsis where they do not fit', () => {
    expect(lines('Wire-free rubber, 5/8 to 1 3/4 in', 13, 3)).toEqual([
      'Wire-free',
      'rubber, 5/8',
      'to 1 3/4 in',
    ]);
    expect(lines('a b c d', 1, 2)).toEqual(['a', 'b…']);
  });
});

describe('the ladder by weight', () => {
  it('shows areas that add up to the margin before what is not by rung, in each month and in all', async () => {
    const document = await plannedDocumentOf(SMALL_WORKS);
    for (const month of [undefined, 0, 1, 2]) {
      const figures = ladderFigures(document, month);
      const scale = Math.abs(figures.margin) + Math.abs(figures.rest);
      expect(Math.abs(figures.net + figures.rest - figures.margin)).toBeLessThan(1e-9 * scale);
    }
  });

  it('draws columns whose area is money: width by height is the same for each yen', async () => {
    const document = await plannedDocumentOf(SMALL_WORKS);
    const figures = ladderFigures(document, undefined);
    const drawing = ladderChart({
      figures,
      units: document.units,
      waysOn: new Map(),
      title: 't',
      description: 'd',
    });
    const boxes = [
      ...drawing.matchAll(
        /<rect class="(gate|earned)" x="([\d.-]+)" y="[\d.-]+" width="([\d.]+)" height="([\d.]+)"/g,
      ),
    ];
    const areas = new Map<string, number>();
    for (const [, , x, width, height] of boxes)
      areas.set(x, (areas.get(x) ?? 0) + Number(width) * Number(height));
    const drawn = [...areas.values()];
    const used = figures.rungs.filter(({ net }) => net > 0);
    expect(drawn).toHaveLength(used.length);
    for (const [i, { net }] of used.entries()) {
      expect(drawn[i] / drawn[0]).toBeCloseTo(net / used[0].net, 2);
    }
  });
});
