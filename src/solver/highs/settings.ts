/** Options of HiGHS that decide how a run treats figures; see the engine's own list of options. */
export interface NumericalSettings {
  readonly presolve: 'choose' | 'off';
  readonly primal_feasibility_tolerance: number;
  readonly dual_feasibility_tolerance: number;
  readonly mip_feasibility_tolerance: number;
}

/** The first run: tolerances a hundred times tighter than the engine's standard ones. */
export const PRECISE: NumericalSettings & Record<string, number | string> = {
  presolve: 'choose',
  primal_feasibility_tolerance: 1e-9,
  dual_feasibility_tolerance: 1e-9,
  mip_feasibility_tolerance: 1e-9,
};

/** The second opinion: the engine's standard tolerances, nothing removed beforehand. */
export const CAREFUL: NumericalSettings & Record<string, number | string> = {
  presolve: 'off',
  primal_feasibility_tolerance: 1e-7,
  dual_feasibility_tolerance: 1e-7,
  mip_feasibility_tolerance: 1e-6,
};

/** Set once a model. One thread (the only build there is) and a fixed seed: the same program, the same answer. */
export const QUIET = { output_flag: false, random_seed: 0 };
