import type { Best } from './best.js';
import type { Displacement } from './displacement.js';
import type { Gain } from './offer-answer.js';

/** value(with) − value(without), between what the bounds of both leave open. */
export function gainOf(without: Best, signed: Best, displaced: Displacement | undefined): Gain {
  const presentValue = signed.value - without.value;
  const open = {
    presentValue,
    low: signed.value - without.bound,
    high: signed.bound - without.value,
  };
  if (displaced === undefined) return open;
  const [before, after] = [displaced.without.statement, displaced.with.statement];
  return {
    ...open,
    margin: after.margin - before.margin,
    byMonth: after.byMonth.map((margin, t) => margin - before.byMonth[t]),
  };
}
