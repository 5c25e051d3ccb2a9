import { uniformInt } from 'pure-rand/distribution/uniformInt';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';

/** A seeded source: the same seed and the same calls give the same draws on every machine. */
export interface Random {
  /** A whole number from low to high, both included. */
  integer(low: number, high: number): number;
  /** A decimal fraction from low to high, rounded to so many decimals. */
  real(low: number, high: number, decimals?: number): number;
  chance(probability: number): boolean;
  pick<T>(list: readonly T[]): T;
  /** So many different entries (all, where there are fewer), in the order of the list. */
  sample<T>(list: readonly T[], count: number): T[];
  shuffled<T>(list: readonly T[]): T[];
}

export type Range = readonly [low: number, high: number];

/** One stream for each label, so that a feature left out does not move the draws of another. */
export function seededRandom(seed: number, label = ''): Random {
  const generator = xoroshiro128plus(hashOf(`${seed}/${label}`));
  const integer = (low: number, high: number) => uniformInt(generator, low, high);
  const shuffled = <T>(list: readonly T[]) => {
    const copy = [...list];
    for (let i = copy.length - 1; i > 0; i -= 1) {
      const j = integer(0, i);
      [copy[i], copy[j]] = [copy[j]!, copy[i]!];
    }
    return copy;
  };
  return {
    integer,
    real(low, high, decimals = 4) {
      const scale = 10 ** decimals;
      return integer(Math.round(low * scale), Math.round(high * scale)) / scale;
    },
    chance: (probability) => integer(0, 999_999) < probability * 1_000_000,
    pick: (list) => list[integer(0, list.length - 1)]!,
    sample(list, count) {
      const kept = new Set(shuffled(list.map((_, index) => index)).slice(0, count));
      return list.filter((_, index) => kept.has(index));
    },
    shuffled,
  };
}

/** 32-bit FNV-1a, the published offset basis and prime (from memory). */
function hashOf(text: string): number {
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i += 1) {
    hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
  }
  return hash | 0;
}
