/** A step, as far as where its mass goes: its input and the materials of which it makes more than nothing. */
export interface Passage {
  readonly input: string;
  readonly outputs: readonly string[];
}

/**
 * Sets of materials that the steps turn into each other and of which nothing can ever leave. Each set is in
 * the order of ids.
 *
 * A material empties where it has an exit, or a step all of whose outputs empty in the end. In a loop that
 * gives part of its mass away the part that goes round shrinks with each round, and it empties; the steps'
 * shares add up to 1, so the loop of a set without a way out has a spectral radius of 1. What is looked for
 * is the set of materials from which no choice of steps leads out with certainty (de Alfaro, "Computing minimum
 * and maximum reachability times in probabilistic systems", 1999, gives the iteration; from memory).
 */
export function endlessLoops(passages: readonly Passage[], exits: ReadonlySet<string>): string[][] {
  const all = new Set(passages.flatMap(({ input, outputs }) => [input, ...outputs]));
  const withSteps = new Set(passages.map(({ input }) => input));
  // A material without a step is no loop, whether or not it can leave.
  const out = new Set([...all].filter((material) => exits.has(material) || !withSteps.has(material)));
  const emptying = emptyingMaterials(passages, all, out);
  const stuck = passages.filter(({ input }) => !emptying.has(input));
  return loopsOf(stuck);
}

/** Shrinks the set of candidates until each can reach the way out by steps that stay among the candidates. */
function emptyingMaterials(
  passages: readonly Passage[],
  all: ReadonlySet<string>,
  out: ReadonlySet<string>,
): ReadonlySet<string> {
  let candidates = all;
  for (;;) {
    const usable = passages.filter(({ outputs }) => outputs.every((material) => candidates.has(material)));
    const reaching = reachedBackwards(usable, out);
    if (reaching.size === candidates.size) return candidates;
    candidates = reaching;
  }
}

function reachedBackwards(passages: readonly Passage[], out: ReadonlySet<string>): ReadonlySet<string> {
  const reached = new Set(out);
  for (let before = -1; before !== reached.size; ) {
    before = reached.size;
    for (const { input, outputs } of passages) {
      if (outputs.some((material) => reached.has(material))) reached.add(input);
    }
  }
  return reached;
}

/** Sets that reach only themselves, each once. */
function loopsOf(passages: readonly Passage[]): string[][] {
  const inputs = [...new Set(passages.map(({ input }) => input))].sort();
  const reach = new Map(inputs.map((input) => [input, reachedFrom(passages, input)]));
  const closed = inputs.filter((input) =>
    [...reach.get(input)!].every((material) => reach.get(material)?.has(input) ?? false),
  );
  const keys = new Set(closed.map((input) => [...reach.get(input)!].sort().join(' ')));
  return [...keys].map((key) => key.split(' '));
}

function reachedFrom(passages: readonly Passage[], start: string): Set<string> {
  const reached = new Set<string>();
  const waiting = [start];
  while (waiting.length > 0) {
    const material = waiting.pop()!;
    for (const next of passages.filter(({ input }) => input === material).flatMap(({ outputs }) => outputs)) {
      if (!reached.has(next)) waiting.push(next);
      reached.add(next);
    }
  }
  return reached;
}
