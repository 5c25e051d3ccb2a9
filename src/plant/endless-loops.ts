/** A step, as far as where its mass goes: its input and the materials of which it makes more than nothing. */
export interface Passage {
  readonly input: string;
  readonly outputs: readonly string[];
}

/**
 * Sets of materials that the steps turn into each other and of which nothing can ever leave, each in the order
 * of ids.
 *
 * The shares of a step add up to 1: what goes round in a set from which no way leads to an exit stays in it, and
 * the spectral radius of its shares is 1. Where from every material of the set some way leads out, each round
 * gives part of the mass away, the radius is below 1, and the set empties.
 *
 * @param exits materials that can leave the plant, or be kept
 */
export function endlessLoops(passages: readonly Passage[], exits: ReadonlySet<string>): string[][] {
  const inputs = new Set(passages.map(({ input }) => input));
  const outputs = passages.flatMap((passage) => passage.outputs);
  // A material without a step is no loop, whether or not it can leave.
  const deadEnds = outputs.filter((material) => !inputs.has(material));
  const emptying = reachedBackwards(passages, new Set([...exits, ...deadEnds]));
  return loopsOf(passages.filter(({ input }) => !emptying.has(input)));
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
