import type { Elastic } from '../../program/elastic.js';
import { objectiveAt } from '../../program/linear-program.js';
import type { WarmSolver } from '../../solver/warm-solver.js';

/** Members of a conflict by the positions of their bounds among those that give. */
export type Membership = readonly (readonly number[])[];

/** Less than this, relative to the largest right side, is given for rounding. */
const NOTHING = 1e-7;

/**
 * An irreducible set of members that cannot all hold, by deletion: a member is left out for good where the others
 * still cannot hold. Each question is one certified solve of the elastic program, in which what is left out gives
 * for nothing; that program always has an optimum, so no engine's word "infeasible" is needed.
 *
 * @param membership in the order in which members are to be left out.
 * @returns positions in the membership; empty where all can hold; undefined where a solve did not certify.
 */
export function irreducibleConflict<R, C>(
  elastic: Elastic<R, C>,
  membership: Membership,
  warm: WarmSolver,
): number[] | undefined {
  const ask = (kept: ReadonlySet<number>) => leastGiven(elastic, membership, kept, warm);
  let kept = new Set(membership.keys());
  const whole = ask(kept);
  if (whole === undefined) return undefined;
  if (whole === 'holds') return [];
  const first = ask(whole);
  if (first === undefined) return undefined;
  if (first !== 'holds') kept = first;
  for (const member of [...kept].sort((a, b) => a - b)) {
    if (!kept.has(member)) continue;
    const without = new Set([...kept].filter((each) => each !== member));
    const answer = ask(without);
    if (answer === undefined) return undefined;
    if (answer === 'holds') continue;
    // What the proof does not lean on can go too, if the rest still cannot hold.
    const leaning = answer.size < without.size ? ask(answer) : 'holds';
    if (leaning === undefined) return undefined;
    kept = leaning === 'holds' ? without : answer;
  }
  return [...kept].sort((a, b) => a - b);
}

/** Whether members can all hold; if not, those that the proof leans on. */
function leastGiven<R, C>(
  { program, gives, rows }: Elastic<R, C>,
  membership: Membership,
  kept: ReadonlySet<number>,
  warm: WarmSolver,
): 'holds' | Set<number> | undefined {
  const cost = new Float64Array(program.cost.length);
  for (const member of kept) for (const bound of membership[member]) cost[gives[bound]] = 1;
  const variant = { ...program, cost };
  const answer = warm.solve(variant);
  if (answer.kind !== 'solved') return undefined;
  if (objectiveAt(variant, answer.answer.primal) <= NOTHING * largestSide(program)) return 'holds';
  const leansOn = (member: number) =>
    membership[member].some((bound) => Math.abs(answer.rowDual[rows[bound]]) > 1e-9);
  return new Set([...kept].filter(leansOn));
}

function largestSide({ rowLower, rowUpper }: Elastic<unknown, unknown>['program']): number {
  let largest = 1;
  for (const sides of [rowLower, rowUpper]) {
    for (const side of sides) if (Number.isFinite(side)) largest = Math.max(largest, Math.abs(side));
  }
  return largest;
}
