import type { LinearProgram } from '../program/linear-program.js';
import { EditableProgram } from './editable-program.js';
import type { LpPackage } from './javascript-lp-solver/package.js';
import { solveProgram } from './javascript-lp-solver/solve.js';
import type { Engine, EngineAnswer, Session, SolveLimits } from './port.js';

/** As pinned in package.json; the package does not say it at run time. */
const VERSION = '1.0.3';

/**
 * javascript-lp-solver: a dense tableau in JavaScript, for small programs. A session solves from scratch
 * each time and keeps no basis.
 */
export async function loadJavascriptLpSolver(): Promise<Engine> {
  const imported = await import('javascript-lp-solver');
  // The package's declarations name neither the default export of the module nor the classes used here.
  const lpPackage = imported.default as unknown as LpPackage;
  return {
    name: 'javascript-lp-solver',
    version: VERSION,
    open: (program) => new TableauSession(lpPackage, program),
  };
}

class TableauSession implements Session {
  private readonly program: EditableProgram;

  constructor(
    private readonly lpPackage: LpPackage,
    program: LinearProgram,
  ) {
    this.program = new EditableProgram(program);
  }

  setCost(column: number, cost: number): void {
    this.program.setCost(column, cost);
  }

  setColumnBounds(column: number, lower: number, upper: number): void {
    this.program.setColumnBounds(column, lower, upper);
  }

  setRowBounds(row: number, lower: number, upper: number): void {
    this.program.setRowBounds(row, lower, upper);
  }

  setCoefficient(row: number, column: number, value: number): void {
    this.program.setCoefficient(row, column, value);
  }

  solve(limits: SolveLimits = {}): EngineAnswer {
    return solveProgram(this.lpPackage, this.program.current, limits);
  }

  basis(): undefined {
    return undefined;
  }

  /** Solving from scratch is what this engine does; a basis from elsewhere changes nothing. */
  startFrom(): void {}

  close(): void {}
}
