import type { ByMonth } from '../../plant/plant.js';
import { formatFigure } from '../figure.js';
import { printParagraph } from '../section.js';
import { type TextColumn, type TextRow, textTable } from '../text-table.js';

/** One part of the printed plant. Its figures are formatted already: shares of a thousandth matter here. */
export interface PlantSection {
  readonly title: string;
  readonly columns: readonly TextColumn[];
  readonly rows: readonly TextRow[];
  readonly notes?: readonly string[];
}

/** A section in print; nothing where its table is empty. */
export function printPlantSection({ title, columns, rows, notes = [] }: PlantSection): string {
  if (rows.length === 0) return '';
  return `${title.toUpperCase()}\n${textTable(columns, rows)}${notes.map(printParagraph).join('')}\n`;
}

export function words(head: string): TextColumn {
  return { head, align: 'left' };
}

export function figures(head: string, unit?: string): TextColumn {
  return unit === undefined ? { head, align: 'right' } : { head, unit, align: 'right' };
}

/** A share in percent. */
export function percent(share: number): string {
  return formatFigure(share * 100, 2);
}

/** The figure of all months, or the lowest and the highest. */
export function monthRange(series: ByMonth, digits: number): string {
  const [low, high] = [Math.min(...series), Math.max(...series)].map((value) => formatFigure(value, digits));
  return low === high ? low! : `${low} to ${high}`;
}
