import type { DrawHooks } from '../analysis/risk/evaluate-draws.js';

export interface DrawsCounted {
  readonly done: number;
  readonly of?: number;
  /** Mean present value of the draws that have a plan, and how many they are. */
  readonly estimate?: number;
  readonly counted?: number;
}

/** Reports after each draw how many there were and the mean of those that have a plan. */
export function drawsCounted(
  report: (progress: DrawsCounted) => void,
  draws?: number,
): NonNullable<DrawHooks['onDraw']> {
  let [done, sum, counted] = [0, 0, 0];
  return (_, outcome) => {
    done += 1;
    if (outcome.kind === 'planned') {
      sum += outcome.value;
      counted += 1;
    }
    report({
      done,
      ...(draws === undefined ? {} : { of: draws }),
      ...(counted === 0 ? {} : { counted, estimate: sum / counted }),
    });
  };
}
