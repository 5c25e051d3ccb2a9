import { printable } from '../printable.js';

/** An element of an SVG drawing as text. Attributes that are undefined are left out. */
export function element(
  name: string,
  attributes: Readonly<Record<string, string | number | undefined>>,
  ...children: readonly string[]
): string {
  const written = Object.entries(attributes)
    .filter(([, value]) => value !== undefined)
    .map(
      ([key, value]) => ` ${key}="${escaped(typeof value === 'number' ? coordinate(value) : String(value))}"`,
    )
    .join('');
  return children.length === 0 ? `<${name}${written}/>` : `<${name}${written}>${children.join('')}</${name}>`;
}

/** Text of a label, which stays text. */
export function label(
  text: string,
  x: number,
  y: number,
  attributes: Readonly<Record<string, string | number | undefined>> = {},
): string {
  return element('text', { x, y, ...attributes }, escaped(printable(text)));
}

export function line(x1: number, y1: number, x2: number, y2: number, className: string): string {
  return element('line', { x1, y1, x2, y2, class: className });
}

/** @example coordinate(1 / 3) // '0.33' */
export function coordinate(value: number): string {
  return String(Math.round(value * 100) / 100);
}

export function escaped(text: string): string {
  return text
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');
}
