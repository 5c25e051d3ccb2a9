import type { LinearProgram } from '../program/linear-program.js';
import { EditableProgram } from './editable-program.js';
import type { EngineAnswer, Session, SolveLimits } from './port.js';

/** A session that keeps its program and no basis: each solve is from scratch, and a basis from elsewhere changes nothing. */
export class ColdSession implements Session {
  private readonly program: EditableProgram;

  /** @param solveOnce answers the program as it then stands */
  constructor(
    program: LinearProgram,
    private readonly solveOnce: (program: LinearProgram, limits: SolveLimits) => EngineAnswer,
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
    return this.solveOnce(this.program.current, limits);
  }

  basis(): undefined {
    return undefined;
  }

  startFrom(): void {}

  close(): void {}
}
