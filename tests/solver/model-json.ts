import { ProgramBuilder } from '../../src/program/builder.js';
import type { LinearProgram } from '../../src/program/linear-program.js';

/** A small linear program written by name. Bounds that are absent are 0 and ∞ for columns, none for rows. */
export interface ModelJson {
  readonly sense: 'maximize' | 'minimize';
  readonly offset?: number;
  readonly columns: Readonly<Record<string, ColumnJson>>;
  readonly rows: Readonly<Record<string, RowJson>>;
}

export interface ColumnJson {
  readonly cost?: number;
  readonly lower?: number;
  readonly upper?: number;
  readonly free?: boolean;
  readonly integer?: boolean;
}

export interface RowJson {
  readonly lower?: number;
  readonly upper?: number;
  readonly equal?: number;
  readonly terms: Readonly<Record<string, number>>;
}

export function programFrom(model: ModelJson): LinearProgram<string, string> {
  const builder = new ProgramBuilder<string, string>(model.sense);
  builder.addOffset(model.offset ?? 0);
  const columns = new Map<string, number>();
  for (const [name, { free, ...spec }] of Object.entries(model.columns)) {
    columns.set(name, builder.column(name, free ? { ...spec, lower: Number.NEGATIVE_INFINITY } : spec));
  }
  for (const [name, { equal, terms, ...bounds }] of Object.entries(model.rows)) {
    const row = builder.row(name, equal === undefined ? bounds : { lower: equal, upper: equal });
    for (const [column, coefficient] of Object.entries(terms)) {
      const index = columns.get(column);
      if (index === undefined)
        throw new RangeError(`row ${name} names a column ${column} that does not exist`);
      builder.add(row, index, coefficient);
    }
  }
  return builder.build();
}
