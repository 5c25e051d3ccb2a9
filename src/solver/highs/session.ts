import type { Highs, Model } from 'highs';
import { hasIntegers, type LinearProgram } from '../../program/linear-program.js';
import { dualPoint } from '../dual-point.js';
import { EditableProgram } from '../editable-program.js';
import { type Basis, type EngineAnswer, EngineFailure, type Session, type SolveLimits } from '../port.js';
import {
  equilibrate,
  type Scaling,
  scaled,
  scaledPrimal,
  unscaledPrimal,
  unscaledRowDual,
} from '../scaling.js';
import { answerWithoutEngine } from '../without-engine.js';
import { toHighsBasis, toPortBasis } from './basis.js';
import type { Guard } from './failure.js';
import { modelData } from './model-data.js';
import { type Outcome, outcomeOf } from './outcome.js';
import { RunOptions } from './run-options.js';
import { CAREFUL, NEAR, NEAR_COSTS, type NumericalSettings, PRECISE, QUIET } from './settings.js';
import { Watch } from './watch.js';

/** One model in HiGHS, in scaled figures; the scaling is that of the program as it was opened. */
export class HighsSession implements Session {
  private readonly program: EditableProgram;
  private readonly scaling: Scaling;
  private readonly model: Model;
  private readonly whole: boolean;
  /** Costs are handed to the engine all at once, before the next run: one call in place of hundreds. */
  private areCostsHanded = true;
  /** Whether bounds or coefficients have moved since the last run. */
  private haveSidesMoved = false;
  /** Whether the engine stands at an optimum, of the program as it was then. */
  private isAtOptimum = false;
  private readonly options: RunOptions;
  /** Once a basis was given, all runs are taken to be near one. */
  private isNear = false;

  constructor(
    private readonly highs: Highs,
    program: LinearProgram,
    private readonly guard: Guard,
  ) {
    this.program = new EditableProgram(program);
    this.scaling = equilibrate(program);
    this.whole = hasIntegers(program);
    this.model = highs.createModel(modelData(highs, scaled(program, this.scaling)));
    this.model.options.set(QUIET);
    this.options = new RunOptions(this.model);
  }

  setCost(column: number, cost: number): void {
    this.program.setCost(column, cost);
    this.areCostsHanded = false;
  }

  setColumnBounds(column: number, lower: number, upper: number): void {
    this.program.setColumnBounds(column, lower, upper);
    if (lower > upper) return; // never solved while they cross
    this.haveSidesMoved = true;
    const factor = this.scaling.column[column];
    this.guard('column bounds', () => this.model.changeColBounds(column, lower / factor, upper / factor));
  }

  setRowBounds(row: number, lower: number, upper: number): void {
    this.program.setRowBounds(row, lower, upper);
    if (lower > upper) return;
    this.haveSidesMoved = true;
    const factor = this.scaling.row[row];
    this.guard('row bounds', () => this.model.changeRowBounds(row, lower * factor, upper * factor));
  }

  setCoefficient(row: number, column: number, value: number): void {
    this.program.setCoefficient(row, column, value);
    this.haveSidesMoved = true;
    this.isAtOptimum = false;
    const factor = this.scaling.row[row] * this.scaling.column[column];
    this.guard('coefficient', () => this.model.changeCoefficient(row, column, value * factor));
  }

  solve(limits: SolveLimits = {}): EngineAnswer {
    const early = answerWithoutEngine(this.program.current);
    if (early !== undefined) return early;
    const watch = new Watch(limits, this.scaling.cost);
    if (watch.isCancelled()) return { reason: 'cancelled' };
    if (this.whole) this.guard('options', () => this.options.allowGap(limits, this.scaling.cost));
    const settings = this.isNear ? this.settingsNear(watch) : PRECISE;
    this.handCosts();
    this.handStart(limits);
    const first = this.run(settings, watch);
    return this.answer(isSettled(first) ? first : this.secondOpinion(first, watch));
  }

  basis(): Basis | undefined {
    return this.guard('basis', () => {
      const valid = this.model.info.get('basis_validity') === this.highs.constants.basisValidity.valid;
      return valid ? toPortBasis(this.model.getBasis(), this.program.current) : undefined;
    });
  }

  startFrom(basis: Basis): void {
    this.guard('basis', () => this.model.setBasis(toHighsBasis(basis)));
    this.isNear = true;
    this.isAtOptimum = true;
  }

  close(): void {
    this.model.dispose();
  }

  /**
   * Where costs and bounds have both moved away from an optimum, one at a time costs fewer pivots: first to the
   * optimum of the new bounds at the old costs, from which the new costs are then followed.
   */
  private settingsNear(watch: Watch): NumericalSettings {
    if (this.areCostsHanded || !this.isAtOptimum) return NEAR;
    if (this.haveSidesMoved && this.run(NEAR, watch) !== 'optimal') return NEAR;
    return NEAR_COSTS;
  }

  private handCosts(): void {
    if (this.areCostsHanded) return;
    const { cost } = this.program.current;
    const scaledCosts = cost.map((each, j) => each * (this.scaling.column[j] * this.scaling.cost));
    const everyColumn = { kind: 'range', from: 0, to: cost.length - 1 } as const;
    this.guard('cost', () => this.model.changeColsCost(everyColumn, scaledCosts));
    this.areCostsHanded = true;
  }

  private handStart({ start }: SolveLimits): void {
    if (!this.whole || start === undefined) return;
    const colValue = scaledPrimal(start, this.scaling);
    this.guard('start', () => this.model.setSolution({ colValue }));
  }

  private run(settings: NumericalSettings, watch: Watch): Outcome {
    const status = this.guard('solve', () => {
      this.options.use(settings);
      this.options.limitTime(watch.secondsLeft());
      return this.model.run(watch.callbacks(this.highs.constants.callbackType)).modelStatus;
    });
    watch.rethrow();
    const outcome = outcomeOf(status, this.highs.constants.modelStatus);
    this.haveSidesMoved = false;
    this.isAtOptimum = outcome === 'optimal';
    return outcome;
  }

  /**
   * 'Infeasible' is believed only when a run from scratch with the standard tolerances and without presolve
   * says so too; so is whatever the engine could not settle.
   */
  private secondOpinion(first: Outcome, watch: Watch): Outcome {
    this.guard('solve', () => this.model.clearSolver());
    const second = this.run(CAREFUL, watch);
    if (second === 'unbounded or infeasible') return this.hasFeasiblePoint(watch);
    if (second === 'time limit' && first === 'infeasible') return 'infeasible';
    return second;
  }

  /** The same program without costs: feasible, then it was unbounded. */
  private hasFeasiblePoint(watch: Watch): Outcome {
    const { cost } = this.program.current;
    try {
      this.guard('cost', () => {
        for (let j = 0; j < cost.length; j++) this.model.changeColCost(j, 0);
      });
      const outcome = this.run(CAREFUL, watch);
      return outcome === 'optimal' ? 'unbounded' : outcome;
    } finally {
      this.areCostsHanded = false;
      this.handCosts();
    }
  }

  private answer(outcome: Outcome): EngineAnswer {
    switch (outcome) {
      case 'infeasible':
      case 'unbounded':
        return { reason: outcome };
      case 'optimal':
        return { reason: 'optimal', ...this.primal(), ...(this.whole ? this.bound() : this.dual()) };
      case 'time limit':
      case 'cancelled':
        return { reason: outcome, ...this.primal(), ...(this.whole ? this.bound() : {}) };
      default:
        throw new EngineFailure('highs', typeof outcome === 'string' ? outcome : `status ${outcome.unknown}`);
    }
  }

  private primal(): Pick<EngineAnswer, 'primal'> {
    return this.guard('solution', () => {
      const status = this.model.info.get('primal_solution_status');
      if (status !== this.highs.constants.solutionStatus.feasible) return {};
      return { primal: unscaledPrimal(this.model.getSolution().colValue, this.scaling) };
    });
  }

  private dual(): Pick<EngineAnswer, 'dual'> {
    const { rowDual } = this.guard('solution', () => this.model.getSolution());
    return { dual: dualPoint(this.program.current, unscaledRowDual(rowDual, this.scaling)) };
  }

  private bound(): Pick<EngineAnswer, 'bound'> {
    const bound =
      this.guard('solution', () => Number(this.model.info.get('mip_dual_bound'))) / this.scaling.cost;
    return Number.isFinite(bound) ? { bound } : {};
  }
}

function isSettled(outcome: Outcome): boolean {
  return (
    outcome === 'optimal' || outcome === 'unbounded' || outcome === 'time limit' || outcome === 'cancelled'
  );
}
