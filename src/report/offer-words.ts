import type { LimitKey } from '../analysis/limits/plan-limit.js';
import type { BreakEvenAnswer, VerdictReason } from '../analysis/offer/offer-answer.js';
import type { Limit } from '../analysis/sweep/feasible-range.js';
import type { PlanMove, QuantityKind } from '../analysis/variant/plan-quantities.js';
import type { ColumnKey, RowKey } from '../planning/keys.js';
import type { Plant } from '../plant/plant.js';
import { minorDigits } from './currency.js';
import { limitAmount, limitWords } from './explain/limit-words.js';
import { formatFigure, type ReportUnits } from './figure.js';
import { limitInWords } from './finance/words.js';
import { type Names, namesOf } from './names.js';
import type { DocumentConflict, DocumentLimit } from './offer/document-limits.js';
import { DECISION_KINDS } from './place-kinds.js';

/** @example priceInWords(195, { kind: 'price', per: 'tonne' }, units) // '195.00 EUR/tonne' */
export function priceInWords(
  value: number,
  { kind, per }: Pick<BreakEvenAnswer, 'kind'> & { readonly per?: string },
  { currency }: ReportUnits,
): string {
  if (kind === 'factor') return `${formatFigure(value, 4)} times its prices`;
  const small = per === 'lb' || per === 'GJ' || per === 'MMBtu' || per === 'kg';
  const price = `${formatFigure(value, minorDigits(currency) + (small ? 2 : 0))} ${currency}/${per ?? 'mass unit'}`;
  return kind === 'base' ? `a base of ${price}` : price;
}

const REASONS: Readonly<Record<VerdictReason, string>> = {
  price: '',
  'price limit': 'It breaks even above the price that the buyer is thought to pay.',
  gap: 'The gain is less than what the solves leave open.',
  'cannot be served': 'Its minimums cannot be kept together with all other promises, at any price.',
  'nothing can be delivered': 'No plan can deliver anything to it.',
  'any price': 'It pays at any price of this material: others are delivered.',
  floor: 'Its floor pays, whatever the base.',
  ceiling: 'It does not pay at its ceiling.',
  'falling price': 'Its price falls as its base rises: there is no break-even.',
  'not in force': 'It is not in force within the months planned.',
  'no common price': 'Its prices differ and are not all above 0: there is no common break-even.',
  'no plan without it': 'There is no plan without it.',
};

export function reasonInWords(reason: VerdictReason): string {
  return REASONS[reason];
}

const NOUNS: Readonly<Record<QuantityKind, readonly [noun: string, names: keyof Names]>> = {
  receive: ['received from', 'feeds'],
  run: ['put through', 'steps'],
  sell: ['sold to', 'outlets'],
  deliver: ['delivered on', 'contracts'],
  missed: ['missed on', 'contracts'],
  dispose: ['put to', 'disposals'],
  stock: ['month-end stocks of', 'materials'],
  attended: ['hours of crew', 'crews'],
};

/** @example moveNoun({ kind: 'sell', id: 'turf', before: 10, after: 0 }, plant) // 'sold to Turf infill' */
export function moveNoun({ kind, id, window, month }: PlanMove, plant: Plant): string {
  const [noun, list] = NOUNS[kind];
  const names = namesOf(plant);
  const where = window === undefined ? '' : `, ${names.windows[window] ?? window}`;
  const when = month === undefined ? '' : `, ${plant.months[month].label}`;
  return `${noun} ${names[list][id] ?? id}${where}${when}`;
}

/** A limit, or what is used up, with its months. */
export function limitEntryInWords({ kind, at, months }: DocumentLimit, plant: Plant): string {
  const said = kind === 'nothing left' ? nothingLeft(at, plant) : limitInWords(limitOf(at), plant);
  return months.length === 0 ? said : `${said} (${monthsInWords(months)})`;
}

/** What nothing is left of, so that the next tonne must come from elsewhere. */
function nothingLeft(
  { kind, outlet, contract, step, material, disposal, window }: DocumentLimit['at'],
  plant: Plant,
) {
  const names = namesOf(plant);
  const named = (list: keyof Names, id: string | undefined) =>
    id === undefined ? '' : (names[list][id] ?? id);
  switch (kind) {
    case 'sell':
      return `nothing left at ${named('outlets', outlet)}`;
    case 'deliver':
      return `nothing left for ${named('contracts', contract)}`;
    case 'run':
      return `${named('steps', step)} stands still, ${named('windows', window)}`;
    case 'stock':
      return `no stock of ${named('materials', material)}`;
    default:
      return `nothing to ${named('disposals', disposal)}`;
  }
}

/** A member of a conflict: the limit, its month and amount. */
export function conflictInWords({ month, unit, amount, ...limit }: DocumentConflict, plant: Plant): string {
  const words = limitWords({ ...limit, month: 0 } as LimitKey, namesOf(plant));
  return `${words}, ${month}: ${limitAmount(amount, unit, plant.units)}`;
}

function isDecision(kind: string): boolean {
  return DECISION_KINDS.some((each) => each === kind);
}

/** The months are said apart. */
function limitOf(at: DocumentLimit['at']): Limit {
  return isDecision(at.kind)
    ? { kind: 'bound', column: at as unknown as ColumnKey }
    : { kind: 'row', row: at as unknown as RowKey };
}

function monthsInWords(months: readonly string[]): string {
  return months.length <= 2 ? months.join(', ') : `${months.length} months from ${months[0]}`;
}
