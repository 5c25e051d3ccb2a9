import type { RiskAnswer } from '../../analysis/risk/risk.js';
import type { Plant } from '../../plant/plant.js';
import { RISK_FORMAT, type RiskDocument } from './risk-schema.js';
import { limitInWords } from './words.js';

/** The document of a risk analysis. */
export function riskDocument(plant: Plant, answer: RiskAnswer): RiskDocument {
  const { title, units } = plant;
  const { values, withoutPlan, rungs, distribution, shortfall, advance } = answer;
  const { status, seed, draws, evaluated, areAlike } = answer;
  return {
    format: RISK_FORMAT,
    title,
    units: { mass: units.mass, currency: units.currency },
    status,
    seed,
    draws,
    evaluated,
    ...(areAlike === undefined ? {} : { areAlike }),
    ...(distribution === undefined ? {} : { distribution: figuresOf(distribution) }),
    ...(shortfall === undefined ? {} : { shortfall: { ...shortfall } }),
    values: values.map((value) => value ?? null),
    withoutPlan: {
      ...withoutPlan,
      problems: withoutPlan.problems.map((problem) => ({ ...problem })),
      limits: withoutPlan.limits.map(({ limit, draws }) => ({ limit: limitInWords(limit, plant), draws })),
      firstInfeasible: [...withoutPlan.firstInfeasible],
    },
    rungs: rungs.map((rung) => ({ ...rung })),
    advance: {
      kept: advance.kept,
      broken: advance.broken,
      ...(advance.loss === undefined ? {} : { loss: figuresOf(advance.loss) }),
    },
  };
}

function figuresOf({ quantiles, ...rest }: NonNullable<RiskAnswer['distribution']>) {
  return { ...rest, quantiles: quantiles.map((quantile) => ({ ...quantile })) };
}
