import { expect, test } from 'vitest';
import type { Plant } from '../../src/plant/plant.js';
import { readPlantDocument } from '../../src/plant/read-plant.js';
import { flowDrawing } from '../../src/report/flow-drawing.js';
import { plantReport } from '../../src/report/plant-report.js';
import { EXAMPLE } from '../plant/example-scenario.js';

function plantOf(change: Partial<typeof EXAMPLE> = {}): Plant {
  const reading = readPlantDocument({ ...EXAMPLE, ...change });
  if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
  return reading.plant;
}

test('the printed plant is the one on file', async () => {
  await expect(plantReport(plantOf())).toMatchFileSnapshot('golden/plant.txt');
});

test('no line is wider than 100 columns, and none ends in a space', () => {
  const lines = plantReport(plantOf()).split('\n');
  expect(lines.length).toBeGreaterThan(50);
  expect(Math.max(...lines.map((line) => line.length))).toBeLessThanOrEqual(100);
  expect(lines.filter((line) => line !== line.trimEnd())).toEqual([]);
});

test('published figures are named with their sources, and warnings printed', () => {
  const [tires, ...others] = EXAMPLE.materials;
  const plant = plantOf({ materials: [{ ...tires!, assay: { from: 'car-tires-example' } }, ...others] });
  const text = plantReport(plant, [{ pointer: '/steps/0', code: 'circuit', message: 'It goes round.' }]);
  expect(text).toContain('PUBLISHED FIGURES USED');
  expect(text).toMatch(/car-tires-example +invented +Invented/);
  expect(text).toContain('Warning: It goes round.');
});

test('the drawing has a box for each material and an arrow for each output', () => {
  const plant = plantOf();
  const svg = flowDrawing(plant);
  expect(svg.match(/data-material="/g)).toHaveLength(plant.materials.length);
  expect(svg.match(/data-step="/g)).toHaveLength(plant.steps.length);
  const outputs = plant.steps.flatMap(({ yields }) => yields.filter(({ share }) => share > 0));
  expect(svg.match(/stroke-opacity="1"/g)).toHaveLength(outputs.length);
  expect(svg).not.toContain('NaN');
});

test('an arrow is as wide as the share that it carries', () => {
  const widths = [...flowDrawing(plantOf()).matchAll(/data-step="cleaning".*$/gm)].flatMap(([group]) =>
    [...group.matchAll(/<path d="M[^"]*C[^"]*" stroke-width="([\d.]+)"/g)].map(([, width]) => Number(width)),
  );
  // Shares of dust, wire and wire-free in the order of ids, of 14 px.
  expect(widths).toEqual([0.15775, 0.16175, 0.6805].map((share) => Number((share * 14).toFixed(2))));
});

test('names in the drawing cannot open tags', () => {
  const svg = flowDrawing(plantOf({ title: '<script>alert("x")</script> & more' }));
  expect(svg).not.toContain('<script>');
  expect(svg).toContain('&lt;script&gt;');
});
