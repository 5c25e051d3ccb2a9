/**
 * The part of javascript-lp-solver 1.0.3 that the adapter uses: its classes, which the package exposes but
 * does not declare. Built through them a model has no names that could collide and no defaults to fear.
 */
export interface LpPackage {
  readonly Model: new () => LpModel;
}

export interface LpModel {
  /** On by default, and wrong: it drops the cost of fixed columns and takes 1e10 for infinity. */
  usePresolve: boolean;
  readonly messages: readonly unknown[];
  readonly tableau: Tableau;
  readonly nVariables: number;
  readonly nConstraints: number;
  maximize(): this;
  minimize(): this;
  /** Σ terms ≤ bound */
  smallerThan(bound: number): LpConstraint;
  /** Σ terms ≥ bound */
  greaterThan(bound: number): LpConstraint;
  /** A variable ≥ 0. */
  addVariable(cost: number, id: string, isInteger: boolean): LpVariable;
  solve(): unknown;
}

export interface LpVariable {
  readonly index: number;
}

/** `index` is that of its slack. */
export interface LpConstraint {
  readonly index: number;
  addTerm(coefficient: number, variable: LpVariable): this;
}

/**
 * Dense table, row 0 the reduced costs of the internal maximization, column 0 the right sides. A variable
 * or slack is in the basis where `rowByVarIndex` is a row, and stands at 0 where `colByVarIndex` is a column;
 * the other of the two is −1.
 */
export interface Tableau {
  readonly matrix: Float64Array;
  readonly width: number;
  readonly rhsColumn: number;
  readonly colByVarIndex: readonly number[];
  readonly rowByVarIndex: readonly number[];
  readonly feasible: boolean;
  readonly bounded: boolean;
  /** One call a pivot, always through the object. */
  pivot(row: number, column: number): void;
  /** One call a linear program: the only one, or that of a node of the search. */
  simplex(): this;
  /** Asked of a node only when it is better than every whole-number point before. */
  isIntegral(): boolean;
}
