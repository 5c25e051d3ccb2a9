/** Options of HiGHS that decide how a run treats figures; see the engine's own list of options. */
export interface NumericalSettings {
  readonly presolve: 'choose' | 'off';
  readonly primal_feasibility_tolerance: number;
  readonly dual_feasibility_tolerance: number;
  readonly mip_feasibility_tolerance: number;
}

/** The engine's own way of working, said because a run near a basis departs from it. */
const STANDARD = {
  simplex_strategy: 1,
  simplex_scale_strategy: 2,
  simplex_dual_edge_weight_strategy: -1,
  dual_simplex_cost_perturbation_multiplier: 1,
  simplex_iteration_limit: 2 ** 31 - 1,
  simplex_update_limit: 5000,
};

/** The first run: tolerances a hundred times tighter than the engine's standard ones. */
export const PRECISE: NumericalSettings & Record<string, number | string> = {
  ...STANDARD,
  presolve: 'choose',
  primal_feasibility_tolerance: 1e-9,
  dual_feasibility_tolerance: 1e-9,
  mip_feasibility_tolerance: 1e-9,
};

/**
 * A run from a basis that was given, of a program not far from the one that it was the optimum of: neither the
 * engine's own scaling (the program is scaled already), nor exact edge weights, nor its perturbation of costs, all
 * of which cost more than the few pivots that are needed. Without the perturbation it could cycle: the limit on
 * pivots ends that. The basis is factored anew every 50 pivots: these bases are nearly triangular.
 */
export const NEAR: NumericalSettings & Record<string, number | string> = {
  ...PRECISE,
  simplex_scale_strategy: 0,
  simplex_dual_edge_weight_strategy: 1,
  dual_simplex_cost_perturbation_multiplier: 0,
  simplex_iteration_limit: 5_000,
  simplex_update_limit: 50,
};

/** The same where only costs have moved since the last optimum: its point is feasible, so pivots keep it so. */
export const NEAR_COSTS: NumericalSettings & Record<string, number | string> = {
  ...NEAR,
  simplex_strategy: 4,
};

/** The second opinion: the engine's standard tolerances, nothing removed beforehand. */
export const CAREFUL: NumericalSettings & Record<string, number | string> = {
  ...STANDARD,
  presolve: 'off',
  primal_feasibility_tolerance: 1e-7,
  dual_feasibility_tolerance: 1e-7,
  mip_feasibility_tolerance: 1e-6,
};

/** Set once a model. One thread (the only build there is) and a fixed seed: the same program, the same answer. */
export const QUIET = { output_flag: false, random_seed: 0 };
