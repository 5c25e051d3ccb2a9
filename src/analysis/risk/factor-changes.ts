import { type Formulation, formulate } from '../../planning/formulate.js';
import { derivePlant } from '../../plant/derive-plant.js';
import { type AffineChange, changeBetween, changedBy, reachOf } from '../../program/affine-change.js';
import type { Scenario, Uncertainty } from '../../scenario/schema/scenario.js';
import { goOn } from '../unfinished.js';
import { agree } from '../variant/affine-pieces.js';
import { type DrawFactors, expectedFactor } from './draw-factors.js';
import { tiedTargets } from './tied-targets.js';
import { type UncertainFactors, withFactors } from './uncertain-numbers.js';

/** What one unit of a factor adds to the program, with what all targets tied to this one add. */
export interface FactorChange {
  readonly target: number;
  /** 0 where one factor holds for the whole series. */
  readonly month: number;
  readonly change: AffineChange;
}

/** The step by which a factor is moved to see what it reaches. */
const STEP = 0.0625;

/** How many of the draws are built in full to see that the changes add up to them. */
const PROVED_BY = 3;

/**
 * What each factor adds, those of tied targets together; undefined where they do not add up on straight lines.
 *
 * @throws Unfinished
 */
export function factorChanges(
  expected: Formulation,
  { base, targets, factors, centre }: UncertainFactors,
  cancelled: (() => boolean) | undefined,
): FactorChange[] | undefined {
  const build = (at: readonly (readonly number[])[]) => {
    goOn(cancelled);
    const document = withFactors(base, targets, at) as Scenario;
    return formulate(derivePlant(document)).program;
  };
  const changes: FactorChange[] = [];
  try {
    for (const block of tiedTargets(targets)) {
      const [target] = block;
      for (const month of centre[target].keys()) {
        const moved = centre.map((row, k) =>
          block.includes(k) ? row.map((own, t) => (t === month ? own + STEP : own)) : row,
        );
        const change = changeBetween(expected.program, build(moved), STEP);
        if (change === undefined) return undefined;
        changes.push({ target, month, change });
      }
    }
    const isSum = extremes(factors).every((draw) => {
      const predicted = programOfDraw({ expected, targets }, changes, draw);
      return agree(predicted, build(draw), [expected.program]);
    });
    return isSum ? changes : undefined;
  } catch (error) {
    // A draw at which no plant can be derived: each draw is then checked by itself.
    if (error instanceof RangeError) return undefined;
    throw error;
  }
}

/** The program of a draw by its factors, from what each of them adds. */
export function programOfDraw(
  { expected, targets }: { readonly expected: Formulation; readonly targets: readonly Uncertainty[] },
  changes: readonly FactorChange[],
  factors: readonly (readonly number[])[],
): Formulation['program'] {
  const moved = changes.map(({ target, month, change }) => {
    const theta = factors[target][month] - expectedFactor(targets[target].distribution);
    return { change, theta };
  });
  return changedBy(expected.program, moved);
}

/**
 * What following a factor costs, by target, against the others. Where bounds move a draw takes a run for them before
 * the one for costs; a factor that reaches nothing costs nothing.
 */
export function weightsOf(
  targets: readonly Uncertainty[],
  changes: readonly FactorChange[] | undefined,
): number[] {
  const weights = new Array<number>(targets.length).fill(1);
  if (changes === undefined) return weights;
  for (const block of tiedTargets(targets)) {
    const reached = changes
      .filter(({ target }) => target === block[0])
      .map(({ change }) => WEIGHT[reachOf(change)]);
    for (const k of block) weights[k] = Math.max(...reached);
  }
  return weights;
}

const WEIGHT = { nothing: 0, objective: 1, 'right sides': 2, both: 2, matrix: 2 } as const;

/** The draws that lie farthest out, and the first ones. */
function extremes(factors: DrawFactors): DrawFactors {
  const sums = factors.map((draw) => draw.flat().reduce((sum, factor) => sum + factor, 0));
  const ranked = factors.map((_, i) => i).sort((a, b) => sums[a] - sums[b]);
  const farthest = [...ranked.slice(0, 2), ...ranked.slice(-2)].map((i) => factors[i]);
  return [...factors.slice(0, PROVED_BY), ...farthest];
}
