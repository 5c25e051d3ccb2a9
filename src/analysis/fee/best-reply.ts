import type { FeedOffer } from './feed-offer.js';

/** A fee and what it brings by itself when a tonne at the gate has given values. */
export interface Reply {
  readonly fee: number;
  readonly gain: number;
}

/**
 * What a fee p brings when one more tonne received is worth κ_t in month t (present value):
 *
 *     φ(p) = Σ_t others_t(p) · max(0, paid_t·p + κ_t) + [committed at the fee] p · Σ_t paid_t·committed_t
 */
export function gainAt(offer: FeedOffer, worth: readonly number[], fee: number): number {
  const others = offer.othersAt(fee);
  return offer.paid.reduce((sum, paid, t) => {
    const committed = offer.isCommittedAtFee ? paid * fee * offer.committed[t] : 0;
    return sum + others[t] * Math.max(0, paid * fee + worth[t]) + committed;
  }, 0);
}

/** The fee between two that brings most, exactly: between the fees at which a month begins to pay, φ is smooth. */
export function bestReply(offer: FeedOffer, worth: readonly number[], low: number, high: number): Reply {
  const fees =
    offer.response.kind === 'table'
      ? offer.response.fees.filter((fee) => fee >= low && fee <= high)
      : turningFees(offer, worth, low, high);
  return [low, high, ...fees].reduce<Reply>(
    (best, fee) => {
      const gain = gainAt(offer, worth, fee);
      return gain > best.gain ? { fee, gain } : best;
    },
    { fee: low, gain: Number.NEGATIVE_INFINITY },
  );
}

/** Ends of the smooth stretches and the fees inside them at which the slope of φ is zero. */
function turningFees(offer: FeedOffer, worth: readonly number[], low: number, high: number): number[] {
  const starts = worth.map((own, t) => -own / offer.paid[t]).filter((fee) => fee > low && fee < high);
  const ends = [...new Set([low, ...starts, high])].sort((a, b) => a - b);
  if (offer.response.kind !== 'elastic') return ends;
  const { elasticity } = offer.response;
  return [...ends, ...ends.slice(1).flatMap((end, i) => flatFees(offer, worth, elasticity, ends[i], end))];
}

/**
 * On a stretch others_t(p) = o_t·p^e and φ = p^e·(A·p + B) + D·p. Its slope times p^(1−e) is
 * h(p) = A(1+e)·p + e·B + D·p^(1−e), which turns at most once: at most two zeros, each found by halving.
 */
function flatFees(
  offer: FeedOffer,
  worth: readonly number[],
  e: number,
  low: number,
  high: number,
): number[] {
  if (!(low > 0)) return [];
  const middle = (low + high) / 2;
  const others = offer.othersAt(middle).map((mass) => mass / middle ** e);
  let [a, b, d] = [0, 0, 0];
  offer.paid.forEach((paid, t) => {
    if (offer.isCommittedAtFee) d += paid * offer.committed[t];
    if (paid * middle + worth[t] <= 0) return;
    a += others[t] * paid;
    b += others[t] * worth[t];
  });
  const h = (p: number) => a * (1 + e) * p + e * b + d * p ** (1 - e);
  const turn = d > 0 ? ((-a * (1 + e)) / (d * (1 - e))) ** (-1 / e) : Number.NaN;
  const parts = turn > low && turn < high ? [low, turn, high] : [low, high];
  return parts.slice(1).flatMap((end, i) => zeroBetween(h, parts[i], end));
}

function zeroBetween(h: (p: number) => number, low: number, high: number): number[] {
  if (!(h(low) * h(high) < 0)) return [];
  let [left, right] = [low, high];
  for (let i = 0; i < 200 && right - left > 1e-15 * right; i++) {
    const middle = (left + right) / 2;
    if (h(left) * h(middle) <= 0) right = middle;
    else left = middle;
  }
  return [(left + right) / 2];
}
