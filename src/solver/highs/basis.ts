import type { BasisInput, BasisStatus as HighsBasisStatus, Basis as NativeBasis } from 'highs';
import type { LinearProgram } from '../../program/linear-program.js';
import type { Basis, BasisStatus } from '../port.js';

const NATIVE: Readonly<Record<BasisStatus, HighsBasisStatus>> = {
  'at lower': 0,
  basic: 1,
  'at upper': 2,
  'free at zero': 3,
};

export function toHighsBasis(basis: Basis): BasisInput {
  return {
    colStatus: basis.columns.map((status) => NATIVE[status]),
    rowStatus: basis.rows.map((status) => NATIVE[status]),
  };
}

export function toPortBasis(basis: NativeBasis, program: LinearProgram): Basis {
  return {
    columns: Array.from(basis.colStatus, (code, j) =>
      statusOf(code, program.columnLower[j], program.columnUpper[j]),
    ),
    rows: Array.from(basis.rowStatus, (code, i) => statusOf(code, program.rowLower[i], program.rowUpper[i])),
  };
}

/** Code 4 means "not basic" without saying where: at a bound that exists, the lower one first. */
function statusOf(code: number, lower: number, upper: number): BasisStatus {
  switch (code) {
    case NATIVE['at lower']:
      return 'at lower';
    case NATIVE.basic:
      return 'basic';
    case NATIVE['at upper']:
      return 'at upper';
    default:
      if (code === 4 && Number.isFinite(lower)) return 'at lower';
      if (code === 4 && Number.isFinite(upper)) return 'at upper';
      return 'free at zero';
  }
}
