import { element, escaped, label } from './svg.js';

/** Width that every chart is laid out for, in CSS pixels; it scales with its viewBox. */
export const CHART_WIDTH = 640;

export interface FrameText {
  /** What the chart shows, above it. */
  readonly title: string;
  /** The same in a sentence or two, for readers who do not see it. */
  readonly description: string;
}

/**
 * Black, white and grey with hatching, so that print and colour-blind readers lose nothing; one blue as an
 * addition. Class names are the charts' own.
 */
const STYLE = `
.cutpoint-chart { font-family: system-ui, sans-serif; font-size: 12px; fill: #111; background: #fff; }
.cutpoint-chart .title { font-size: 14px; font-weight: 600; }
.cutpoint-chart .note { fill: #444; }
.cutpoint-chart .axis { stroke: #333; }
.cutpoint-chart .grid { stroke: #ddd; }
.cutpoint-chart .zero { stroke: #333; stroke-width: 1.5; }
.cutpoint-chart .curve { fill: none; stroke: #0b4f9c; stroke-width: 2; }
.cutpoint-chart .second { stroke-dasharray: 6 3; }
.cutpoint-chart .third { stroke-dasharray: 2 3; }
.cutpoint-chart .mark { fill: #fff; stroke: #0b4f9c; stroke-width: 2; }
.cutpoint-chart .bar, .cutpoint-chart .layer { stroke: #111; }
.cutpoint-chart .cut { fill: #fff; stroke: #111; }
.cutpoint-chart .guide { stroke: #111; stroke-dasharray: 4 3; }
`.trim();

/** A whole drawing: title, description, patterns, and what is inside. */
export function frame({ title, description }: FrameText, height: number, content: readonly string[]): string {
  return element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      class: 'cutpoint-chart',
      role: 'img',
      width: CHART_WIDTH,
      height,
      viewBox: `0 0 ${CHART_WIDTH} ${height}`,
    },
    element('title', {}, escaped(title)),
    element('desc', {}, escaped(description)),
    element('style', {}, STYLE),
    element('defs', {}, ...PATTERNS),
    element('rect', { width: CHART_WIDTH, height, fill: '#fff' }),
    ...wrapped(title, TITLE_LETTERS).map((text, i) => label(text, 12, 22 + 18 * i, { class: 'title' })),
    ...content,
  );
}

/** Letters that fit on a line of the title in a wide typeface. */
const TITLE_LETTERS = 66;

/** Lines of a title: how many decides where the plot may begin. */
export function titleHeight(title: string): number {
  return 18 * wrapped(title, TITLE_LETTERS).length + 12;
}

/** Fills that differ without colour. */
export const FILLS = {
  solid: '#0b4f9c',
  plain: '#e8eef6',
  rising: 'url(#cutpoint-rising)',
  falling: 'url(#cutpoint-falling)',
  dots: 'url(#cutpoint-dots)',
  crossed: 'url(#cutpoint-crossed)',
} as const;

const PATTERNS = [
  pattern('cutpoint-rising', 'M0,8 L8,0'),
  pattern('cutpoint-falling', 'M0,0 L8,8'),
  pattern('cutpoint-crossed', 'M0,4 H8 M4,0 V8'),
  element(
    'pattern',
    { id: 'cutpoint-dots', width: 8, height: 8, patternUnits: 'userSpaceOnUse' },
    element('rect', { width: 8, height: 8, fill: '#fff' }),
    element('circle', { cx: 4, cy: 4, r: 1.2, fill: '#555' }),
  ),
];

function pattern(id: string, path: string): string {
  return element(
    'pattern',
    { id, width: 8, height: 8, patternUnits: 'userSpaceOnUse' },
    element('rect', { width: 8, height: 8, fill: '#fff' }),
    element('path', { d: path, stroke: '#0b4f9c', 'stroke-width': 2 }),
  );
}

function wrapped(text: string, width: number): string[] {
  const lines: string[] = [];
  for (const word of text.split(' ')) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + word.length < width) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}
