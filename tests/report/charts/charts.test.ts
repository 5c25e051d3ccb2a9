import { describe, expect, it } from 'vitest';
import { bridgeChart } from '../../../src/report/charts/bridge-chart.js';
import { curveChart } from '../../../src/report/charts/curve-chart.js';
import { distributionChart } from '../../../src/report/charts/distribution-chart.js';
import { stackedChart } from '../../../src/report/charts/stacked-chart.js';
import { tornadoChart } from '../../../src/report/charts/tornado-chart.js';

const text = { title: 'Value over <price> & more', description: 'What it shows.' };

const CHARTS = {
  curve: curveChart({
    ...text,
    xTitle: 'Price (EUR/tonne)',
    yTitle: 'Present value (EUR)',
    lines: [
      {
        name: 'best plan',
        points: [
          { x: 0, y: 100 },
          { x: 10, y: 150, isMarked: true },
          { x: 20, y: 300 },
        ],
      },
      {
        name: 'income',
        points: [
          { x: 0, y: 0 },
          { x: 20, y: 50 },
        ],
      },
    ],
    bands: [{ from: 20, to: 30, label: 'no feasible plan' }],
    guides: [{ x: 5, label: 'as it is: 5' }],
  }),
  tornado: tornadoChart({
    ...text,
    xTitle: 'Present value (EUR)',
    base: 100,
    bars: [
      { name: 'price', low: 50, high: 180, lowLabel: '90', highLabel: '110' },
      { name: 'power', high: 90, lowLabel: '0.1', highLabel: '0.2' },
    ],
  }),
  bridge: bridgeChart({
    ...text,
    yTitle: 'Margin (EUR)',
    from: { name: 'before', value: 100 },
    to: { name: 'after', value: -20 },
    steps: [
      { name: 'price', amount: 30 },
      { name: 'cost', amount: -150 },
    ],
  }),
  'cut bridge': bridgeChart({
    ...text,
    yTitle: 'Margin (EUR)',
    from: { name: 'without', value: 1000 },
    to: { name: 'with', value: 1010 },
    steps: [
      { name: 'price', amount: 30 },
      { name: 'cost', amount: -20 },
    ],
  }),
  stacked: stackedChart({
    ...text,
    xTitle: 'Firm volume (tonne a month)',
    yTitle: 'Given (tonne)',
    xs: [0, 10, 30],
    layers: [
      { name: 'turf', values: [0, 8, 20] },
      { name: 'stock', values: [0, 4, 15] },
      { name: 'kiln', values: [0, -2, -5] },
    ],
  }),
  distribution: distributionChart({
    ...text,
    xTitle: 'Present value (EUR)',
    yTitle: 'Draws',
    values: Array.from({ length: 100 }, (_, i) => i),
    marks: [{ at: 50, label: 'median' }],
    level: 20,
  }),
};

describe.each(Object.entries(CHARTS))('the %s chart', (name, svg) => {
  it('is one well-formed SVG element, 640 wide, with its title and description as text', () => {
    const open = [...svg.matchAll(/<([a-z]+)[^>]*?(\/?)>/g)]
      .filter(([, , selfClosed]) => selfClosed === '')
      .map(([, tag]) => tag);
    const closed = [...svg.matchAll(/<\/([a-z]+)>/g)].map(([, tag]) => tag);
    expect(closed.toSorted()).toEqual(open.toSorted());
    expect(svg).toMatch(
      /^<svg xmlns="http:\/\/www\.w3\.org\/2000\/svg" class="cutpoint-chart" role="img" width="640"/,
    );
    expect(svg).toContain('<title>Value over &lt;price&gt; &amp; more</title>');
    expect(svg).toContain('<desc>What it shows.</desc>');
    expect(svg).not.toContain('NaN');
  });

  it('draws inside its frame', () => {
    const [, width, height] = svg.match(/viewBox="0 0 (\d+) (\d+)"/)!;
    for (const [, key, value] of svg.matchAll(/ (x|y|x1|x2|y1|y2|cx|cy)="(-?[\d.]+)"/g)) {
      const most = key.includes('x') ? Number(width) : Number(height);
      expect(Number(value), `${name} ${key}`).toBeGreaterThanOrEqual(-0.01);
      expect(Number(value), `${name} ${key}`).toBeLessThanOrEqual(most);
    }
  });
});

describe('the charts', () => {
  it('tell bars apart by hatching, not by colour', () => {
    expect(CHARTS.tornado).toContain('fill="url(#cutpoint-falling)"');
    expect(CHARTS.tornado).toContain('fill="url(#cutpoint-rising)"');
    expect(CHARTS.bridge).toContain('fill="url(#cutpoint-falling)"');
  });

  it('name what is missing', () => {
    expect(CHARTS.tornado).toContain('0.1: no plan');
    expect(CHARTS.curve).toContain('no feasible plan');
  });

  it('print amounts beside the bars of a bridge, and axes with their units', () => {
    expect(CHARTS.bridge).toContain('>+30.0<');
    expect(CHARTS.bridge).toContain('>-150.0<');
    expect(CHARTS.curve).toContain('>Price (EUR/tonne)<');
  });

  it('count every value of a sample once', () => {
    const heights = [...CHARTS.distribution.matchAll(/class="bar"[^>]*? height="([\d.]+)"/g)].map(
      ([, height]) => Number(height),
    );
    const tallest = Math.max(...heights);
    const sum = heights.reduce((total, height) => total + height, 0);
    expect(sum / tallest).toBeGreaterThan(9);
  });

  it('stack layers on each other: each begins where the one under it ends, those below 0 at 0', () => {
    const [turf, stock, kiln] = [...CHARTS.stacked.matchAll(/<path class="layer" d="M([^"]*)Z"/g)].map(
      ([, path]) => path.split('L').map((pair) => Number(pair.split(',')[1])),
    );
    // An area goes forth along its upper edge and back along its lower.
    const [upper, lower] = [
      (area: number[]) => area.slice(0, 3),
      (area: number[]) => area.slice(3).reverse(),
    ];
    expect(lower(stock)).toEqual(upper(turf));
    expect(upper(kiln)[2]).toBeGreaterThan(lower(turf)[2]);
    expect(lower(kiln)).toEqual(lower(turf));
    const heights = [turf, stock, kiln].map((area) => lower(area)[2] - upper(area)[2]);
    expect(heights[0] / heights[1]).toBeCloseTo(20 / 15, 1);
    expect(heights[0] / heights[2]).toBeCloseTo(20 / -5, 1);
  });

  it('say where the axis of a bridge begins, where it does not begin at 0', () => {
    expect(CHARTS['cut bridge']).toMatch(/The axis begins at \d+(\.\d+)?, not at 0\./);
    expect(CHARTS['cut bridge'].match(/class="cut"/g)).toHaveLength(2);
    expect(CHARTS.bridge).not.toContain('class="cut"');
  });

  it('draw the widest bars and say how many there are besides', () => {
    const bars = Array.from({ length: 40 }, (_, i) => ({
      name: `number ${i}`,
      low: 100 - (40 - i),
      high: 100 + (40 - i),
      lowLabel: 'low',
      highLabel: 'high',
    }));
    const svg = tornadoChart({ ...text, xTitle: 'Value', base: 100, bars });
    expect(svg).toContain('>number 14<');
    expect(svg).not.toContain('>number 15<');
    expect(svg).toContain('25 more');
  });
});
