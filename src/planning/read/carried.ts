import type { Plant, PlantStep } from '../../plant/plant.js';
import { solveLinearSystems } from '../../program/linear-system.js';
import type { MaterialWorth } from '../plan.js';
import type { Amounts } from './amounts.js';
import { machineHours } from './months.js';
import { RUNG_FORMS } from './rung-forms.js';

/** What one tonne of a material carries down the ladder: mass of tire, and money. */
export interface Carried {
  readonly tires: number;
  readonly tippingFee: number;
  readonly byProducts: number;
  readonly cost: number;
}

export const NOTHING_CARRIED: Carried = { tires: 0, tippingFee: 0, byProducts: 0, cost: 0 };

const FACETS = ['tires', 'tippingFee', 'byProducts', 'cost'] as const;

/**
 * Average-cost pools of one month. With a the figure that a tonne carries, S the tonnes of the pool,
 * Y_k the share of step k that stays on the ladder, d_k what step k adds to a tonne of input:
 *
 *     a_m · S_m = opening_m · a_m[t−1] + received + Σ_k run_k · yield[k,m] / Y_k · (a_input(k) + d_k)
 *
 * linear in a. Whole tires from before the horizon carry no fee; what was made of them before counts as made like
 * that of the first month.
 */
export function carriedByMaterial(
  plant: Plant,
  amounts: Amounts,
  worth: readonly MaterialWorth[],
  before: readonly Carried[],
  month: number,
): Carried[] {
  const count = plant.materials.length;
  const position = new Map(plant.materials.map((material, m) => [material.id, m]));
  const matrix = Array.from({ length: count }, () => new Array<number>(count).fill(0));
  const sides = FACETS.map(() => new Array<number>(count).fill(0));
  const enter = (m: number, mass: number, each: Carried) => {
    matrix[m][m] += mass;
    FACETS.forEach((facet, side) => {
      sides[side][m] += mass * each[facet];
    });
  };
  plant.materials.forEach((material, m) => {
    if (month > 0) enter(m, amounts.stock[m][month - 1] ?? 0, before[m]);
    else if (material.form === 'whole')
      enter(m, material.stock?.opening ?? 0, { ...NOTHING_CARRIED, tires: 1 });
  });
  plant.feeds.forEach((feed, f) => {
    const m = position.get(feed.material) ?? 0;
    enter(m, amounts.receive[f][month], receivedTonne(plant, amounts, f, month));
  });
  plant.steps.forEach((step, k) => {
    const mass = amounts.run[k].reduce((sum, window) => sum + window[month], 0);
    const kept = keptOutputs(plant, step);
    const share = kept.reduce((sum, output) => sum + output.share, 0);
    if (mass <= 0 || share === 0) return;
    const added = addedByStep(plant, amounts, worth, k, month);
    const input = position.get(step.input) ?? 0;
    for (const output of kept) {
      const m = position.get(output.material) ?? 0;
      const weight = (mass * output.share) / share;
      matrix[m][m] += mass * output.share;
      matrix[m][input] -= weight;
      FACETS.forEach((facet, side) => {
        sides[side][m] += weight * added[facet];
      });
    }
  });
  matrix.forEach((row, m) => {
    if (row[m] === 0) row[m] = 1;
  });
  const [tires, tippingFee, byProducts, cost] = solveLinearSystems(matrix, sides);
  return plant.materials.map((_, m) => ({
    tires: tires[m],
    tippingFee: tippingFee[m],
    byProducts: byProducts[m],
    cost: cost[m],
  }));
}

/** Outputs that stay on the ladder; where a step has none, all of them do. A by-product's step adds no tire. */
function keptOutputs(plant: Plant, step: PlantStep): PlantStep['yields'] {
  const forms = new Map(plant.materials.map((material) => [material.id, material.form]));
  const rungs = step.yields.filter((output) => RUNG_FORMS.has(forms.get(output.material) ?? 'other'));
  return rungs.length > 0 ? rungs : step.yields;
}

function receivedTonne(plant: Plant, amounts: Amounts, f: number, month: number): Carried {
  const feed = plant.feeds[f];
  const mass = amounts.receive[f][month];
  const committed = feed.committed[month];
  const fees = committed * feed.committedFee[month] + (mass - committed) * feed.fee[month];
  return { ...NOTHING_CARRIED, tires: 1, tippingFee: mass > 0 ? fees / mass - feed.haulage[month] : 0 };
}

/** By tonne of input: by-products at their worth; power, wear and the step's part of the wages. */
function addedByStep(
  plant: Plant,
  amounts: Amounts,
  worth: readonly MaterialWorth[],
  k: number,
  month: number,
): Carried {
  const step = plant.steps[k];
  const kept = new Set(keptOutputs(plant, step).map((output) => output.material));
  const byProducts = step.yields
    .filter((output) => !kept.has(output.material))
    .reduce((sum, output) => {
      const each = worth.find((entry) => entry.material === output.material)?.byMonth[month] ?? 0;
      return sum + output.share * each;
    }, 0);
  const mass = amounts.run[k].reduce((sum, window) => sum + window[month], 0);
  const power = plant.windows.reduce(
    (sum, window, w) => sum + amounts.run[k][w][month] * window.powerPrice[month],
    0,
  );
  const running = (step.energy[month] * power) / mass + step.wear[month];
  return {
    tires: 0,
    tippingFee: 0,
    byProducts,
    cost: running + wagesOfStep(plant, amounts, k, month) / mass,
  };
}

/** A crew's wages in a window fall on its machines' steps by machine-hours over machines at once. */
function wagesOfStep(plant: Plant, amounts: Amounts, k: number, month: number): number {
  const step = plant.steps[k];
  const machine = plant.machines.find((each) => each.id === step.machine);
  const c = plant.crews.findIndex((crew) => crew.id === machine?.crew);
  if (machine === undefined || c < 0) return 0;
  const crew = plant.crews[c];
  return plant.windows.reduce((sum, window, w) => {
    const own =
      amounts.run[k][w][month] / step.throughput[month] / (machine.count * machine.availability[month]);
    if (own <= 0) return sum;
    const all = plant.machines
      .filter((each) => each.crew === crew.id && each.availability[month] > 0)
      .map(
        (each) => machineHours(plant, amounts, each.id, w, month) / (each.count * each.availability[month]),
      )
      .reduce((total, hours) => total + hours, 0);
    const wages = amounts.attended[c][w][month] * crew.people * crew.wage[month] * window.wageFactor;
    return sum + (wages * own) / all;
  }, 0);
}
