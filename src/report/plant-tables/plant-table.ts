import type { Plant } from '../../plant/plant.js';
import { formatFigure } from '../figure.js';

/** A table of one noun of the scenario, as it is edited: a column for each member that most entries have. */
export interface PlantTable {
  /** The list's key in the scenario, `windows` for those of `operation`. */
  readonly key: string;
  readonly title: string;
  readonly columns: readonly PlantColumn[];
  readonly computed: readonly ComputedColumn[];
}

export interface PlantColumn {
  readonly path: string;
  readonly head: string;
  /** '' where it has none. */
  readonly unit: string;
  readonly kind: 'text' | 'figure' | 'choice';
  readonly choices?: readonly string[];
}

/** What follows from the members: shown, never written. */
export interface ComputedColumn {
  readonly head: string;
  readonly unit: string;
  /** By id; the first month's where months differ. */
  readonly of: (plant: Plant, id: string) => string;
}

/** A column of texts. */
export function text(path: string, head: string): PlantColumn {
  return { path, head, unit: '', kind: 'text' };
}

/** A column of figures in one unit. */
export function figure(path: string, head: string, unit = ''): PlantColumn {
  return { path, head, unit, kind: 'figure' };
}

/** The first month's figure; '' where there is none or no limit. */
export function first(series: readonly number[] | undefined, digits: number): string {
  const [value] = series ?? [];
  return value === undefined || !Number.isFinite(value) ? '' : formatFigure(value, digits);
}
