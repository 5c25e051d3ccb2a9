import { PLANT_CHECKS } from '../../plant/plant-checks.js';
import { checkDocument } from '../../scenario/parse.js';
import { goOn } from '../unfinished.js';
import { tiedTargets } from './tied-targets.js';
import { type UncertainFactors, withFactors } from './uncertain-numbers.js';

/** Halvings that find the last valid factor on a side. */
const HALVINGS = 6;

/** Where the factors of a draw may end: the lowest and the highest of each target. */
type Ranges = readonly (readonly [number, number])[];

/**
 * For each target a range of factors inside which a draw is taken for valid: those drawn, or as far towards them as
 * the scenario passes its checks, each block of tied targets by itself, then all by one share of their ways. A draw
 * outside is checked by itself. A rule of the format compares two numbers at most, on straight lines, so it is enough
 * that the scenario passes at the pairsOfEnds of the ranges.
 *
 * @throws Unfinished
 */
export function validFactors(
  { base, targets, factors, centre }: UncertainFactors,
  cancelled?: () => boolean,
): Ranges {
  const blocks = tiedTargets(targets);
  const isValid = (moved: UncertainFactors['centre']) => {
    goOn(cancelled);
    return checkDocument(withFactors(base, targets, moved), PLANT_CHECKS).ok;
  };
  const isSafe = (ranges: Ranges) =>
    pairsOfEnds(blocks).every((ends) => isValid(centre.map((row, k) => row.map(() => ranges[k][ends[k]]))));
  const drawn = targets.map((_, k): [number, number] => {
    const all = factors.flatMap((draw) => draw[k]);
    return [Math.min(...all, ...centre[k]), Math.max(...all, ...centre[k])];
  });
  if (isSafe(drawn)) return drawn;
  const ends = centre.map(([own]): [number, number] => [own, own]);
  for (const block of blocks) {
    for (const side of [0, 1] as const) {
      const alone = (share: number) =>
        centre.map((row, k) =>
          block.includes(k) ? row.map((own) => onTheWay(own, drawn[k][side], share)) : row,
        );
      const share = lastValid((tried) => isValid(alone(tried)));
      for (const k of block) ends[k][side] = onTheWay(centre[k][0], drawn[k][side], share);
    }
  }
  const together = (share: number) =>
    ends.map(([low, high], k): [number, number] => [
      onTheWay(centre[k][0], low, share),
      onTheWay(centre[k][0], high, share),
    ]);
  return together(lastValid((share) => isSafe(together(share))));
}

function onTheWay(from: number, to: number, share: number): number {
  return from + share * (to - from);
}

/**
 * Choices of an end for each target, those of a block alike: all at the lower end, all at the upper one, and for
 * each binary digit of the blocks' positions the end that it says, and the other. Any two blocks differ in a digit.
 */
function pairsOfEnds(blocks: readonly (readonly number[])[]): (0 | 1)[][] {
  const ends = (endOf: (block: number) => number) => {
    const chosen: (0 | 1)[] = [];
    blocks.forEach((block, i) => {
      for (const k of block) chosen[k] = endOf(i) === 0 ? 0 : 1;
    });
    return chosen;
  };
  const digits = Array.from({ length: Math.ceil(Math.log2(Math.max(1, blocks.length))) }, (_, d) => d);
  return [
    ends(() => 0),
    ends(() => 1),
    ...digits.flatMap((d) => [ends((i) => (i >> d) & 1), ends((i) => 1 - ((i >> d) & 1))]),
  ];
}

/** The greatest share of the way, of those tried, at which all is valid. */
function lastValid(isValid: (share: number) => boolean): number {
  if (isValid(1)) return 1;
  let [good, bad] = [0, 1];
  for (let i = 0; i < HALVINGS; i++) {
    const between = (good + bad) / 2;
    if (isValid(between)) good = between;
    else bad = between;
  }
  return good;
}
