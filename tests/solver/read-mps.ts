import { ProgramBuilder } from '../../src/program/builder.js';
import type { LinearProgram } from '../../src/program/linear-program.js';

interface MpsRow {
  readonly type: string;
  right: number;
  range?: number;
}

interface MpsColumn {
  readonly integer: boolean;
  readonly cells: Map<string, number>;
  lower: number;
  upper: number;
}

interface Mps {
  sense: 'maximize' | 'minimize';
  objective?: string;
  readonly rows: Map<string, MpsRow>;
  readonly columns: Map<string, MpsColumn>;
}

/**
 * Reads the MPS format (fixed or free, names without blanks) of the open test collections. The first N row is
 * the objective, other N rows are dropped; a right side of the objective is minus its offset; whole-number
 * columns between the markers are unbounded above unless a bound says otherwise.
 *
 * @throws SyntaxError on a section, row type or bound type that it does not know.
 */
export function readMps(text: string): LinearProgram<string, string> {
  const mps: Mps = { sense: 'minimize', rows: new Map(), columns: new Map() };
  let section = '';
  let integer = false;
  for (const line of text.split(/\r?\n/)) {
    if (line.startsWith('*') || line.trim() === '') continue;
    const fields = line.trim().split(/\s+/);
    if (!/^\s/.test(line)) {
      section = fields[0].toUpperCase();
      if (section === 'ENDATA') break;
    } else if (fields[1] === "'MARKER'") {
      integer = fields[2] === "'INTORG'";
    } else {
      readLine(mps, section, fields, integer);
    }
  }
  return programOf(mps);
}

function readLine(mps: Mps, section: string, fields: readonly string[], integer: boolean): void {
  switch (section) {
    case 'OBJSENSE':
      mps.sense = /^max/i.test(fields[0]) ? 'maximize' : 'minimize';
      return;
    case 'ROWS':
      mps.rows.set(fields[1], { type: fields[0].toUpperCase(), right: 0 });
      if (fields[0].toUpperCase() === 'N') mps.objective ??= fields[1];
      return;
    case 'COLUMNS':
      readColumn(mps, fields, integer);
      return;
    case 'RHS':
      for (const [name, value] of pairs(fields)) rowNamed(mps, name).right = value;
      return;
    case 'RANGES':
      for (const [name, value] of pairs(fields)) rowNamed(mps, name).range = value;
      return;
    case 'BOUNDS':
      readBound(mps, fields);
      return;
    default:
      throw new SyntaxError(`MPS section ${section}`);
  }
}

function readColumn(mps: Mps, fields: readonly string[], integer: boolean): void {
  const [name, ...rest] = fields;
  const column = mps.columns.get(name) ?? {
    integer,
    cells: new Map(),
    lower: 0,
    upper: Number.POSITIVE_INFINITY,
  };
  mps.columns.set(name, column);
  for (const [row, value] of pairs(rest)) column.cells.set(row, value);
}

function readBound(mps: Mps, fields: readonly string[]): void {
  const type = fields[0].toUpperCase();
  const valued = !['FR', 'MI', 'PL', 'BV'].includes(type);
  // The name of the set of bounds may be missing.
  const name = fields[fields.length - (valued ? 2 : 1)];
  const value = Number(fields.at(-1));
  const column = mps.columns.get(valued ? name : fields.length > 2 ? fields[2] : fields[1]);
  if (column === undefined) throw new SyntaxError(`MPS bound of a column ${name} that does not exist`);
  if (['FX', 'LO', 'LI'].includes(type)) column.lower = value;
  if (['FX', 'UP', 'UI'].includes(type)) column.upper = value;
  if (['FR', 'MI'].includes(type)) column.lower = Number.NEGATIVE_INFINITY;
  if (['FR', 'PL'].includes(type)) column.upper = Number.POSITIVE_INFINITY;
  if (type === 'BV') [column.lower, column.upper] = [0, 1];
  if (!['FX', 'LO', 'LI', 'UP', 'UI', 'FR', 'MI', 'PL', 'BV'].includes(type))
    throw new SyntaxError(`MPS bound ${type}`);
}

/** Name and number in turn; an odd first field is the name of the set. */
function pairs(fields: readonly string[]): [string, number][] {
  const found: [string, number][] = [];
  for (let i = fields.length % 2; i < fields.length; i += 2) found.push([fields[i], Number(fields[i + 1])]);
  return found;
}

function rowNamed(mps: Mps, name: string): MpsRow {
  const row = mps.rows.get(name);
  if (row === undefined) throw new SyntaxError(`MPS row ${name} does not exist`);
  return row;
}

function programOf(mps: Mps): LinearProgram<string, string> {
  const builder = new ProgramBuilder<string, string>(mps.sense);
  const rows = new Map<string, number>();
  for (const [name, row] of mps.rows) {
    if (row.type !== 'N') rows.set(name, builder.row(name, boundsOf(row)));
    else if (name === mps.objective) builder.addOffset(-row.right);
  }
  for (const [name, { cells, ...spec }] of mps.columns) {
    const column = builder.column(name, spec);
    for (const [row, value] of cells) {
      const index = rows.get(row);
      if (index !== undefined) builder.add(index, column, value);
      else if (row === mps.objective) builder.addCost(column, value);
    }
  }
  return builder.build();
}

/** A range R turns ≤ r into [r − |R|, r], ≥ r into [r, r + |R|], = r into the side that its sign says. */
function boundsOf({ type, right, range }: MpsRow): { lower?: number; upper?: number } {
  const width = range === undefined ? Number.POSITIVE_INFINITY : Math.abs(range);
  switch (type) {
    case 'L':
      return { lower: right - width, upper: right };
    case 'G':
      return { lower: right, upper: right + width };
    case 'E':
      return { lower: right + Math.min(range ?? 0, 0), upper: right + Math.max(range ?? 0, 0) };
    default:
      throw new SyntaxError(`MPS row type ${type}`);
  }
}
