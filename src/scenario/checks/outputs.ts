import type { Located } from '../draft.js';
import type { Step } from '../schema/scenario.js';

/** Where a step names the materials that it makes; the "return" of a screen is not among them. */
export function outputsOf({ value, pointer }: Located<Partial<Step>>): Located<string>[] {
  const { yields } = value;
  if (yields === undefined) return [];
  const start = `${pointer}/yields`;
  if ('shares' in yields) return keysAt(yields.shares, `${start}/shares`);
  if ('separation' in yields) {
    const { to, remainder } = yields.separation;
    return [
      ...keysAt(to, `${start}/separation/to`),
      { value: remainder, pointer: `${start}/separation/remainder` },
    ];
  }
  const { decks, under, losses } = yields.sizing;
  const streams = [
    ...decks.map(({ over }, i) => ({ value: over, pointer: `${start}/sizing/decks/${i}/over` })),
    { value: under, pointer: `${start}/sizing/under` },
  ];
  return [
    ...streams.filter((stream) => stream.value !== 'return'),
    ...keysAt(losses ?? {}, `${start}/sizing/losses`),
  ];
}

function keysAt(record: Readonly<Record<string, unknown>>, pointer: string): Located<string>[] {
  return Object.keys(record).map((key) => ({ value: key, pointer: `${pointer}/${key}` }));
}
