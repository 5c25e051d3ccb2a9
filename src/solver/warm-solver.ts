import type { CertificateOptions } from '../program/certificate.js';
import { hasIntegers, type LinearProgram } from '../program/linear-program.js';
import type { SolverAnswer } from './answer.js';
import { failing, judge } from './certified-solve.js';
import type { Solver } from './choose.js';
import type { Basis, Engine, Session, SolveLimits } from './port.js';

/**
 * Solves many variants of one linear program, each from the basis of the last. A variant is a program of the
 * same shape; only the figures that differ from the last one are handed to the engine. Every answer is
 * certified; one that is not, and every 'infeasible' or 'unbounded' unless it is to be believed, is asked again
 * from cold.
 */
export interface WarmSolver {
  /** Solves so far, cold ones included. */
  readonly solves: number;
  solve<R, C>(
    program: LinearProgram<R, C>,
    limits?: SolveLimits,
    options?: CertificateOptions,
  ): SolverAnswer<R, C>;
  /** Whether a program is held, from whose basis the next solve starts. */
  readonly isOpen: boolean;
  /** Opens a program without solving it, to be started from a basis. */
  open(program: LinearProgram): void;
  basis(): Basis | undefined;
  startFrom(basis: Basis): void;
  close(): void;
}

export interface WarmOptions {
  /**
   * Whether the engine's 'infeasible' is believed at once. An engine that keeps bases has run twice by then; from
   * cold it takes as long as many warm solves.
   */
  readonly believesInfeasible?: boolean;
}

/** Opens a warm solver, on the engine that keeps bases unless another is given; close it when done. */
export function openWarm(
  solver: Solver,
  engine: Engine = keepsBases(solver),
  options: WarmOptions = {},
): WarmSolver {
  return new EngineWarmSolver(solver, engine, options);
}

function keepsBases({ engines }: Solver): Engine {
  return engines.find(({ name }) => name === 'highs') ?? engines[0];
}

class EngineWarmSolver implements WarmSolver {
  solves = 0;
  private session: Session | undefined;
  private held: LinearProgram | undefined;

  constructor(
    private readonly solver: Solver,
    private readonly engine: Engine,
    private readonly options: WarmOptions,
  ) {}

  solve<R, C>(
    program: LinearProgram<R, C>,
    limits: SolveLimits = {},
    options: CertificateOptions = {},
  ): SolverAnswer<R, C> {
    if (hasIntegers(program)) return this.cold(program, limits, options);
    this.solves += 1;
    const trial = failing(this.engine, () => {
      const answer = this.opened(program).solve(limits);
      return judge(this.engine, program, answer, answer.dual?.rowDual, options);
    });
    const { attempt, certified } = trial;
    if (certified !== undefined && attempt.outcome === 'certified') {
      return { kind: 'solved', ...certified, attempts: [attempt] };
    }
    if (attempt.outcome === 'cancelled' || attempt.outcome === 'time limit') {
      return { kind: 'stopped', reason: attempt.outcome, attempts: [attempt] };
    }
    if (attempt.outcome === 'infeasible' && this.options.believesInfeasible === true) {
      return { kind: 'infeasible', engine: this.engine.name, attempts: [attempt] };
    }
    this.close();
    return this.cold(program, limits, options);
  }

  open(program: LinearProgram): void {
    this.opened(program);
  }

  get isOpen(): boolean {
    return this.session !== undefined;
  }

  basis(): Basis | undefined {
    return this.session?.basis();
  }

  startFrom(basis: Basis): void {
    this.session?.startFrom(basis);
  }

  close(): void {
    this.session?.close();
    this.session = undefined;
    this.held = undefined;
  }

  private cold<R, C>(program: LinearProgram<R, C>, limits: SolveLimits, options: CertificateOptions) {
    this.solves += 1;
    return this.solver.solve(program, limits, options);
  }

  private opened(program: LinearProgram): Session {
    const { session, held } = this;
    if (
      session === undefined ||
      held === undefined ||
      held.sense !== program.sense ||
      !sameMatrixShape(held, program)
    ) {
      this.close();
      this.session = this.engine.open(program);
      this.held = program;
      return this.session;
    }
    hand(session, held, program);
    this.held = program;
    return session;
  }
}

function sameMatrixShape(a: LinearProgram, b: LinearProgram): boolean {
  if (a.matrix.starts === b.matrix.starts && a.matrix.rows === b.matrix.rows) return true;
  return (
    a.cost.length === b.cost.length &&
    a.rowLower.length === b.rowLower.length &&
    a.matrix.rows.length === b.matrix.rows.length &&
    a.matrix.starts.every((start, j) => start === b.matrix.starts[j]) &&
    a.matrix.rows.every((row, k) => row === b.matrix.rows[k])
  );
}

/** Hands the engine what differs. */
function hand(session: Session, held: LinearProgram, program: LinearProgram): void {
  const { cost, columnLower, columnUpper, rowLower, rowUpper, matrix } = program;
  for (let j = 0; j < cost.length; j++) {
    if (cost[j] !== held.cost[j]) session.setCost(j, cost[j]);
    if (columnLower[j] !== held.columnLower[j] || columnUpper[j] !== held.columnUpper[j]) {
      session.setColumnBounds(j, columnLower[j], columnUpper[j]);
    }
  }
  for (let i = 0; i < rowLower.length; i++) {
    if (rowLower[i] !== held.rowLower[i] || rowUpper[i] !== held.rowUpper[i]) {
      session.setRowBounds(i, rowLower[i], rowUpper[i]);
    }
  }
  if (matrix.values === held.matrix.values) return;
  for (let j = 0; j < cost.length; j++) {
    for (let k = matrix.starts[j]; k < matrix.starts[j + 1]; k++) {
      if (matrix.values[k] !== held.matrix.values[k])
        session.setCoefficient(matrix.rows[k], j, matrix.values[k]);
    }
  }
}
