import type { Material, Step } from '../../src/scenario/schema/scenario.js';
import { assayOf } from './figures.js';

/** Net input mass per machine-hour, passes through a screen counted. Figures that are series are not read. */
export function netThroughput(step: Step): number {
  const { circuit } = step;
  if (circuit !== undefined) {
    return (circuit.passThroughput as number) * circuit.undersize * (circuit.screenEfficiency ?? 1);
  }
  return (step.throughput as number) / passesOfSizing(step);
}

/** Output mass by input mass, straight from the definitions of shares, separation and sizing. */
export function stepShares(step: Step, input: Material): Record<string, number> {
  const { yields } = step;
  if ('shares' in yields) return { ...yields.shares };
  if ('separation' in yields) return separationShares(yields.separation, assayOf(input));
  return sizingShares(yields.sizing);
}

type Yields = Step['yields'];
type Separation = Extract<Yields, { separation: unknown }>['separation'];
type Sizing = Extract<Yields, { sizing: unknown }>['sizing'];

/** share of k = Σ_c a_c·R[k,c]; the remainder gets what is left of 1. */
function separationShares(separation: Separation, assay: Readonly<Record<string, number>>) {
  const shares: Record<string, number> = {};
  for (const [output, recoveries] of Object.entries(separation.to)) {
    const mass = Object.entries(recoveries).reduce(
      (sum, [part, share]) => sum + (assay[part] ?? 0) * share,
      0,
    );
    shares[output] = mass;
  }
  const rest = 1 - Object.values(shares).reduce((sum, share) => sum + share, 0);
  shares[separation.remainder] = (shares[separation.remainder] ?? 0) + rest;
  return shares;
}

/** P_i = (E_1 ⋯ E_i)·F(d_i) with F(d) = 1 − exp(−(d/d63)^n); over of deck i is P_{i−1} − P_i. */
function sizingShares(sizing: Sizing): Record<string, number> {
  const passing = passingDecks(sizing);
  const kept = 1 - Object.values(sizing.losses ?? {}).reduce((sum, share) => sum + share, 0);
  const returned = sizing.decks[0]!.over === 'return';
  const scale = kept / (returned ? passing[1]! : 1);
  const shares: Record<string, number> = { ...sizing.losses };
  const add = (material: string, share: number) => {
    shares[material] = (shares[material] ?? 0) + share * scale;
  };
  sizing.decks.forEach((deck, index) => {
    if (!(returned && index === 0)) add(deck.over, passing[index]! - passing[index + 1]!);
  });
  add(sizing.under, passing.at(-1)!);
  return shares;
}

function passesOfSizing(step: Step): number {
  if (!('sizing' in step.yields)) return 1;
  const { sizing } = step.yields;
  return sizing.decks[0]!.over === 'return' ? 1 / passingDecks(sizing)[1]! : 1;
}

/** P_0 … P_last; openings in mm. */
function passingDecks({ d63, n, decks }: Sizing): number[] {
  const passing = [1];
  let efficiency = 1;
  for (const deck of decks) {
    efficiency *= deck.efficiency ?? 1;
    passing.push(efficiency * (1 - Math.exp(-(((deck.opening as number) / d63) ** n))));
  }
  return passing;
}
