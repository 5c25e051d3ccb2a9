import type { Form, Plant, PlantMaterial, PlantStep } from '../plant/plant.js';
import { formatFigure } from './figure.js';
import { printable } from './printable.js';

interface Place {
  readonly x: number;
  readonly y: number;
}

const LADDER: readonly Form[] = [
  'whole',
  'shred',
  'chip',
  'wire-free',
  'granulate',
  'powder',
  'steel',
  'fiber',
  'residue',
  'other',
];

const BOX = { width: 150, height: 44 };
const GAP = { across: 110, down: 26 };
const MARGIN = 24;
const TITLE_HEIGHT = 40;
/** Width in px of an arrow that carries all of a step's input. */
const WHOLE = 14;
const LONGEST_NAME = 22;

/**
 * A drawing of the plant as SVG: a box for each material, in columns in the order of the ladder, an arrow
 * from a step's input to each of its outputs, as wide as the share that it carries.
 */
export function flowDrawing(plant: Plant): string {
  const columns = columnsOf(plant.materials);
  const places = placesOf(columns);
  const tallest = Math.max(...columns.map((column) => column.length));
  const width = 2 * MARGIN + columns.length * BOX.width + (columns.length - 1) * GAP.across;
  const height = 2 * MARGIN + TITLE_HEIGHT + tallest * BOX.height + (tallest - 1) * GAP.down;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" width="${width}" height="${height}" role="img" font-family="sans-serif" font-size="12">`,
    `<title>${escaped(`Flow of materials: ${plant.title}`)}</title>`,
    `<rect width="${width}" height="${height}" fill="#ffffff"/>`,
    `<text x="${MARGIN}" y="${MARGIN + 12}" font-size="16" fill="#222222">${escaped(plant.title)}</text>`,
    ...plant.steps.map((step) => stepGroup(step, places)),
    ...plant.materials.map((material) => materialBox(material, places.get(material.id)!)),
    '</svg>\n',
  ].join('\n');
}

/** Materials by form, in the order of the ladder, without the forms that the plant does not have. */
function columnsOf(materials: readonly PlantMaterial[]): PlantMaterial[][] {
  return LADDER.map((form) => materials.filter((material) => material.form === form)).filter(
    (column) => column.length > 0,
  );
}

function placesOf(columns: readonly (readonly PlantMaterial[])[]): Map<string, Place> {
  return new Map(
    columns.flatMap((column, i) =>
      column.map(({ id }, j): [string, Place] => [
        id,
        {
          x: MARGIN + i * (BOX.width + GAP.across),
          y: MARGIN + TITLE_HEIGHT + j * (BOX.height + GAP.down),
        },
      ]),
    ),
  );
}

function materialBox({ id, name, form }: PlantMaterial, { x, y }: Place): string {
  return [
    `<g data-material="${id}">`,
    `<title>${escaped(name)}</title>`,
    `<rect x="${x}" y="${y}" width="${BOX.width}" height="${BOX.height}" rx="4" fill="#f4f1ea" stroke="#555555"/>`,
    `<text x="${x + 10}" y="${y + 18}" fill="#222222">${escaped(short(name))}</text>`,
    `<text x="${x + 10}" y="${y + 34}" fill="#666666">${form}</text>`,
    '</g>',
  ].join('');
}

function stepGroup(step: PlantStep, places: ReadonlyMap<string, Place>): string {
  const from = places.get(step.input)!;
  const arrows = step.yields
    .filter(({ share }) => share > 0)
    .map(({ material, share }) => arrow(from, places.get(material)!, share));
  const passes = step.passes > 1 ? `, ${formatFigure(step.passes, 2)} passes` : '';
  const outputs = step.yields.map(({ material, share }) => `${material} ${formatFigure(share * 100, 1)} %`);
  const title = `${step.name}${passes}: ${outputs.join(', ')}`;
  return `<g data-step="${step.id}" fill="none" stroke="#3a6ea5" stroke-opacity="0.55"><title>${escaped(title)}</title>${arrows.join('')}</g>`;
}

/** A curve from the right of one box to the left of another, or, where that would run back, round above it. */
function arrow(from: Place, to: Place, share: number): string {
  const [startX, startY] = [from.x + BOX.width, from.y + BOX.height / 2];
  const [endX, endY] = [to.x, to.y + BOX.height / 2];
  const reach = Math.max(GAP.across / 2, Math.abs(endX - startX) / 2);
  const curve = `M${startX},${startY} C${startX + reach},${startY} ${endX - reach},${endY} ${endX},${endY}`;
  const tip = `M${endX - 7},${endY - 5} L${endX},${endY} L${endX - 7},${endY + 5}`;
  return `<path d="${curve}" stroke-width="${Math.max(1, share * WHOLE).toFixed(2)}"/><path d="${tip}" stroke-width="1.5" stroke-opacity="1"/>`;
}

function short(name: string): string {
  const characters = [...name];
  return characters.length <= LONGEST_NAME ? name : `${characters.slice(0, LONGEST_NAME - 1).join('')}…`;
}

function escaped(text: string): string {
  return printable(text)
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');
}
