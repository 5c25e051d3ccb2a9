/** A Rosin–Rammler distribution of sizes. */
export interface RosinRammler {
  /** mm, the size that 63.2 % of the mass passes. */
  readonly d63: number;
  /** Spread. */
  readonly n: number;
}

export interface Deck {
  /** mm */
  readonly opening: number;
  /** Share of the undersize that passes, misplaced evenly over the sizes. */
  readonly efficiency: number;
}

/** Shares of one pass over a screen, which add up to 1. */
export interface DeckShares {
  /** By deck, what stays on it. */
  readonly over: readonly number[];
  /** What passes the last deck. */
  readonly under: number;
}

/** Share of the mass that is finer than a size in mm: F(d) = 1 − exp(−(d / d63)^n). */
export function passing({ d63, n }: RosinRammler, size: number): number {
  return -Math.expm1(-((size / d63) ** n));
}

/** The size in mm that a share of the mass passes: d = d63 · (−ln(1 − share))^(1/n). */
export function sizePassing({ d63, n }: RosinRammler, share: number): number {
  return d63 * (-Math.log1p(-share)) ** (1 / n);
}

/**
 * What stays on each deck and what passes the last, coarsest deck first. With E_i the efficiency of deck i,
 * P_0 = 1 and P_i = (E_1 ⋯ E_i)·F(d_i): over of deck i = P_{i−1} − P_i, under = P_last.
 */
export function screen(distribution: RosinRammler, decks: readonly Deck[]): DeckShares {
  let efficiency = 1;
  const passed = decks.map((deck) => {
    efficiency *= deck.efficiency;
    return efficiency * passing(distribution, deck.opening);
  });
  const over = passed.map((share, i) => (passed[i - 1] ?? 1) - share);
  return { over, under: passed.at(-1) ?? 1 };
}

/**
 * The same screen with the over of the first deck going back to the machine: the other shares are divided by
 * P_1 and the machine works 1 / P_1 passes for each tonne of input.
 */
export function screenWithReturn(
  distribution: RosinRammler,
  decks: readonly Deck[],
): DeckShares & { readonly passes: number } {
  const { over, under } = screen(distribution, decks);
  const passed = 1 - over[0]!;
  return {
    over: over.map((share, i) => (i === 0 ? 0 : share / passed)),
    under: under / passed,
    passes: 1 / passed,
  };
}
