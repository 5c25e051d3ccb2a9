import type { Elastic } from '../../program/elastic.js';
import type { SolveLimits } from '../../solver/port.js';
import type { WarmSolver } from '../../solver/warm-solver.js';

/** Members of a conflict by the positions of their bounds among those that give. */
export type Membership = readonly (readonly number[])[];

/** What gives by less than this, relative to its own bound, gives for rounding. */
const NOTHING = 1e-7;

/**
 * An irreducible set of members that cannot all hold, by deletion: a member is left out for good where the others
 * still cannot hold. Each question is one certified solve of the elastic program, in which what is left out gives
 * for nothing; that program always has an optimum, so no engine's word "infeasible" is needed.
 *
 * @param membership in the order in which members are to be left out.
 * @param most what counts as the size of a bound that is larger: a limit that nothing can come near is not to hide what
 *   is missing elsewhere.
 * @returns positions in the membership; empty where all can hold; undefined where a solve did not certify.
 */
export function irreducibleConflict<R, C>(
  elastic: Elastic<R, C>,
  membership: Membership,
  warm: WarmSolver,
  { most, limits = {} }: { readonly most: number; readonly limits?: SolveLimits },
): number[] | undefined {
  const ask = (kept: ReadonlySet<number>) => leastGiven(elastic, membership, kept, { warm, most, limits });
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
  { program, gives, rows, sides }: Elastic<R, C>,
  membership: Membership,
  kept: ReadonlySet<number>,
  { warm, most, limits }: { warm: WarmSolver; most: number; limits: SolveLimits },
): 'holds' | Set<number> | undefined {
  const cost = new Float64Array(program.cost.length);
  for (const member of kept) for (const bound of membership[member]) cost[gives[bound]] = 1;
  const variant = { ...program, cost };
  const answer = warm.solve(variant, limits);
  if (answer.kind !== 'solved') return undefined;
  const given = (bound: number) => answer.answer.primal[gives[bound]];
  const isRounding = (bound: number) =>
    given(bound) <= NOTHING * (1 + Math.min(most, Math.abs(sides[bound])));
  if ([...kept].every((member) => membership[member].every(isRounding))) return 'holds';
  const leansOn = (member: number) =>
    membership[member].some((bound) => Math.abs(answer.rowDual[rows[bound]]) > 1e-9);
  return new Set([...kept].filter(leansOn));
}
