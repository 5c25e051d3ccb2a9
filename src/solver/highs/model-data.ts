import type { Highs, ModelData } from 'highs';
import { columnCount, hasIntegers, type LinearProgram, rowCount } from '../../program/linear-program.js';

/** The program as the package takes it: sparse columns, no names. */
export function modelData(highs: Highs, program: LinearProgram): ModelData {
  const { minimize, maximize } = highs.constants.objectiveSense;
  const { starts, rows, values } = program.matrix;
  return {
    numCols: columnCount(program),
    numRows: rowCount(program),
    sense: program.sense === 'maximize' ? maximize : minimize,
    offset: program.offset,
    colCost: program.cost,
    colLower: program.columnLower,
    colUpper: program.columnUpper,
    rowLower: program.rowLower,
    rowUpper: program.rowUpper,
    matrix: {
      format: 'csc',
      numRows: rowCount(program),
      numCols: columnCount(program),
      starts,
      indices: rows,
      values,
    },
    // Given for whole numbers only: with it the engine would take a linear program for a mixed one.
    ...(hasIntegers(program) ? { integrality: Int32Array.from(program.integer) } : {}),
  };
}
