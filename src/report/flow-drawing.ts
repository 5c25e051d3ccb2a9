import type { Form, Plant, PlantMaterial, PlantStep } from '../plant/plant.js';
import { formatFigure } from './figure.js';
import { printable } from './printable.js';

interface Place {
  readonly x: number;
  readonly y: number;
  readonly column: number;
  readonly band: 'rung' | 'by-product';
}

/** Forms of which the ladder is made, from whole tire to powder. */
const RUNGS: readonly Form[] = ['whole', 'shred', 'chip', 'wire-free', 'granulate', 'powder'];

/** Forms that come off on the way down. */
const BY_PRODUCTS: readonly Form[] = ['steel', 'fiber', 'residue', 'other'];

const BOX = { width: 160, height: 44 };
const GAP = { across: 100, down: 40 };
const PITCH = BOX.width + GAP.across;
const MARGIN = 24;
/** Room above the boxes for the title and for arrows that pass over them. */
const HEAD = 110;
/** Room between the rungs and the by-products. */
const BAND = 110;
/** Width in px of an arrow that carries all of a step's input. */
const WHOLE = 14;
const LONGEST_NAME = 22;
/** Columns of one form, less one; what goes round would otherwise be ever deeper. */
const DEEPEST = 3;

/**
 * A drawing of the plant as SVG: a box for each material, the rungs of the ladder in columns and the
 * by-products in a row below them, and an arrow from a step's input to each of its outputs, as wide as the
 * share that it carries.
 */
export function flowDrawing(plant: Plant): string {
  const { places, width, height } = layOut(plant);
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

interface Layout {
  readonly places: ReadonlyMap<string, Place>;
  readonly width: number;
  readonly height: number;
}

/** Rungs in columns, by-products in a row below. */
function layOut(plant: Plant): Layout {
  const ofForm = (form: Form) => plant.materials.filter((material) => material.form === form);
  const columns = RUNGS.flatMap((form) => columnsOf(ofForm(form), plant.steps));
  const row = BY_PRODUCTS.flatMap(ofForm);
  const tallest = Math.max(0, ...columns.map((column) => column.length));
  const across = Math.max(columns.length, row.length);
  const below = HEAD + tallest * (BOX.height + GAP.down) - GAP.down + BAND;
  const rungs = columns.flatMap((column, i) =>
    column.map(({ id }, j): [string, Place] => [id, placeAt(i, HEAD + j * (BOX.height + GAP.down), 'rung')]),
  );
  const indent = (across - row.length) / 2;
  const others = row.map(({ id }, i): [string, Place] => [id, placeAt(indent + i, below, 'by-product')]);
  return {
    places: new Map([...rungs, ...others]),
    width: 2 * MARGIN + across * PITCH - GAP.across,
    height: (row.length > 0 ? below + BOX.height : below - BAND) + MARGIN,
  };
}

/** Materials of one form in columns, each right of those of the form from which it is made. */
function columnsOf(materials: readonly PlantMaterial[], steps: readonly PlantStep[]): PlantMaterial[][] {
  const depths = new Map(materials.map(({ id }) => [id, 0]));
  for (let round = 0; round < DEEPEST; round += 1) {
    for (const { input, yields } of steps) {
      const below = depths.get(input);
      if (below === undefined || below === DEEPEST) continue;
      for (const { material } of yields) {
        const depth = depths.get(material);
        if (depth !== undefined && material !== input) depths.set(material, Math.max(depth, below + 1));
      }
    }
  }
  const used = [...new Set(depths.values())].sort((a, b) => a - b);
  return used.map((depth) => materials.filter(({ id }) => depths.get(id) === depth));
}

function placeAt(column: number, y: number, band: Place['band']): Place {
  return { x: MARGIN + column * PITCH, y, column, band };
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

function arrow(from: Place, to: Place, share: number): string {
  const { curve, tip } = routeOf(from, to);
  return `<path d="${curve}" stroke-width="${Math.max(1, share * WHOLE).toFixed(2)}"/><path d="${tip}" stroke-width="1.5" stroke-opacity="1"/>`;
}

/**
 * To the next column straight across, to a by-product down to its top, to any other material over the boxes
 * between.
 */
function routeOf(from: Place, to: Place): { readonly curve: string; readonly tip: string } {
  const top = `${to.x + BOX.width / 2},${to.y}`;
  const tipDown = `M${to.x + BOX.width / 2 - 5},${to.y - 7} L${top} L${to.x + BOX.width / 2 + 5},${to.y - 7}`;
  const [right, middle] = [from.x + BOX.width, from.y + BOX.height / 2];
  if (to.band === 'by-product' && from.band === 'rung') {
    const bend = `${right + GAP.across / 2},${middle} ${to.x + BOX.width / 2},${to.y - BAND}`;
    return { curve: `M${right},${middle} C${bend} ${top}`, tip: tipDown };
  }
  if (to.band === 'rung' && from.band === 'rung' && to.column === from.column + 1) {
    const [endX, endY] = [to.x, to.y + BOX.height / 2];
    const half = (right + endX) / 2;
    return {
      curve: `M${right},${middle} C${half},${middle} ${half},${endY} ${endX},${endY}`,
      tip: `M${endX - 7},${endY - 5} L${endX},${endY} L${endX - 7},${endY + 5}`,
    };
  }
  const above = Math.min(from.y, to.y) - 60;
  const start = from.x + BOX.width * 0.75;
  return {
    curve: `M${start},${from.y} C${start},${above} ${to.x + BOX.width / 2},${above} ${top}`,
    tip: tipDown,
  };
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
