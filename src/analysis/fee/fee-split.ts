import type { FeeRange } from './fee-box.js';
import type { FeedOffer } from './feed-offer.js';
import type { OfferProgram } from './offer-program.js';

/** What a feed's split between fees says about where to look next. */
export interface Split {
  /** Where to split the box: the offer that mixes most, and its mean fee. */
  readonly split: { readonly offer: number; readonly fee: number };
  /** Fees worth trying. */
  readonly candidates: readonly (readonly number[])[];
}

interface Share {
  readonly fee: number;
  readonly share: number;
}

/** Reads the split of a point of the program in which each feed may split itself between fees. */
export function readSplit(
  program: OfferProgram,
  primal: Float64Array,
  offers: readonly FeedOffer[],
  ranges: readonly FeeRange[],
): Split {
  const shares = ranges.map((): Share[] => []);
  program.columnKeys.forEach((key, j) => {
    if (key.kind === 'share' && primal[j] > 1e-9) shares[key.offer].push({ fee: key.fee, share: primal[j] });
  });
  const means = shares.map((own) => own.reduce((sum, { fee, share }) => sum + fee * share, 0));
  const main = shares.map(
    (own, i) => own.reduce((a, b) => (b.share > a.share ? b : a), { fee: means[i], share: 0 }).fee,
  );
  const mixing = shares.map((own, i) =>
    own.reduce((sum, { fee, share }) => sum + share * Math.abs(fee - means[i]), 0),
  );
  const width = ranges.map(({ low, high }) => high - low);
  const most = mixing.reduce(
    (best, own, i) => (own / (width[i] || 1) > mixing[best] / (width[best] || 1) ? i : best),
    0,
  );
  const isMixed = mixing[most] > 1e-9 * width[most];
  const offer = isMixed ? most : width.indexOf(Math.max(...width));
  const wanted = isMixed ? means[offer] : main[offer];
  return {
    split: { offer, fee: splitFee(offers[offer], ranges[offer], wanted) },
    candidates: candidatesOf(offers, means, main, shares),
  };
}

/** Well inside the range; for a table between two listed fees. */
function splitFee({ response }: FeedOffer, { low, high }: FeeRange, wanted: number): number {
  if (response.kind !== 'table') {
    return Math.min(high - 0.05 * (high - low), Math.max(low + 0.05 * (high - low), wanted));
  }
  const listed = response.fees.filter((fee) => fee >= low && fee <= high);
  const next = listed.findIndex((fee) => fee >= wanted);
  const k = Math.max(1, Math.min(listed.length - 1, next));
  return listed.length < 2 ? (low + high) / 2 : (listed[k - 1] + listed[k]) / 2;
}

/** The main fees, for each feed the single fee that draws the tonnes of its split, and the mean fees. */
function candidatesOf(
  offers: readonly FeedOffer[],
  means: readonly number[],
  main: readonly number[],
  shares: readonly (readonly Share[])[],
): (readonly number[])[] {
  const byTonnes = offers.map(({ response, low, high }, i) => {
    if (response.kind !== 'elastic' || response.elasticity === 0) return main[i];
    const { elasticity: e } = response;
    const drawn = shares[i].reduce((sum, { fee, share }) => sum + share * fee ** e, 0);
    return Math.min(high, Math.max(low, drawn ** (1 / e)));
  });
  const single = means.map((mean, i) => (offers[i].response.kind === 'table' ? main[i] : mean));
  return [main, byTonnes, single];
}
