import type { DrawnGain, GainSample, UncertainGain } from '../../analysis/offer/gain-under-uncertainty.js';

/** The draws' gains in their order, null where a draw has none. */
export type DrawnDocument = Omit<DrawnGain, 'kept' | 'remade'> &
  Readonly<
    Record<'kept' | 'remade', Omit<GainSample, 'gains'> & { readonly gains: readonly (number | null)[] }>
  >;

export type UncertainDocument =
  | DrawnDocument
  | Exclude<UncertainGain, DrawnGain | { readonly status: 'problems' }>;

/** What can be said of draws, as plain JSON. */
export function drawnDocument(
  uncertain: Exclude<UncertainGain, { readonly status: 'problems' }>,
): UncertainDocument {
  if (!('remade' in uncertain)) return uncertain;
  const sample = ({ gains, ...rest }: GainSample) => ({ ...rest, gains: gains.map((gain) => gain ?? null) });
  return { ...uncertain, kept: sample(uncertain.kept), remade: sample(uncertain.remade) };
}
