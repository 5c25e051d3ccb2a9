import type { Plant } from '../../plant/plant.js';
import { formatFigure, formatMoney, type ReportUnits } from '../figure.js';
import type { JudgedDocument } from '../offer-document.js';
import { conflictInWords, priceInWords, reasonInWords } from '../offer-words.js';

type BreakEven = JudgedDocument['breakEven'];

/** What to say to the buyer and why, a sentence or two an entry. */
export function offerHeadline(document: JudgedDocument, plant: Plant): string[] {
  return [
    verdictLine(document),
    ...gainLines(document),
    ...breakEvenLines(document),
    ...document.reasons.map(reasonInWords).filter((words) => words !== ''),
    ...servedLines(document, plant),
    ...volumeLines(document),
    ...countingLines(document),
    solvesLine(document),
  ];
}

function verdictLine({ offer, verdict, above, upTo, breakEven, units }: JudgedDocument): string {
  const limit =
    verdict === 'take only above' && above !== undefined
      ? ` ${priceInWords(above, breakEven, units)}`
      : verdict === 'take only up to' && upTo !== undefined
        ? ` ${formatFigure(upTo, 1)} ${units.mass} a month`
        : '';
  return `${offer.name}, ${offer.buyer}: ${verdict.toUpperCase()}${limit}.`;
}

function gainLines({ gain, breakEven, units, askedMargin, counting }: JudgedDocument): string[] {
  const { currency } = units;
  const asked =
    askedMargin === 0
      ? []
      : [`It is asked to leave ${formatMoney(askedMargin, currency)} (present value) above that plan.`];
  if (gain === undefined) return asked;
  const { presentValue, low, high } = gain;
  const does = presentValue < 0 ? 'loses' : 'adds';
  const open =
    counting === 'whole'
      ? `; by what whole shifts leave open, between ${signedMoney(low, currency)} and ${signedMoney(high, currency)}`
      : '';
  const at = breakEven.kind === 'factor' ? 'its prices' : priceInWords(breakEven.own, breakEven, units);
  return [
    `Signed at ${at} it ${does} ${formatMoney(Math.abs(presentValue), currency)} (present value) against the best plan without it${open}.`,
    ...asked,
  ];
}

function signedMoney(amount: number, currency: string): string {
  return amount < 0 ? formatMoney(amount, currency) : `+${formatMoney(amount, currency)}`;
}

function breakEvenLines({ breakEven, askedMargin, units }: JudgedDocument): string[] {
  if (breakEven.price === undefined) return [];
  const does = askedMargin === 0 ? 'It breaks even at' : 'It leaves that at';
  return [`${does} ${priceInWords(breakEven.price, breakEven, units)}${intervalInWords(breakEven, units)}.`];
}

function intervalInWords({ interval, ...breakEven }: BreakEven, units: ReportUnits): string {
  if (interval === undefined) return '';
  const { low, high } = interval;
  const at = (price: number) => priceInWords(price, breakEven, units);
  if (low !== undefined && high !== undefined)
    return `, with whole shifts between ${at(low)} and ${at(high)}`;
  if (high !== undefined) return `, with whole shifts surely at ${at(high)} and perhaps below`;
  return low === undefined ? ', which whole shifts leave open' : `, with whole shifts not below ${at(low)}`;
}

function servedLines({ servedShare, conflict = [] }: JudgedDocument, plant: Plant): string[] {
  const share =
    servedShare === undefined
      ? []
      : [
          `Of all its volumes alike ${formatFigure(servedShare * 100, 1)} % can be served together with everything else that is promised.`,
        ];
  if (conflict.length === 0) return share;
  const members = conflict.map((member) => conflictInWords(member, plant)).join('; ');
  if (conflict.length === 1) return [...share, `Whatever else gives way, this cannot be kept: ${members}.`];
  return [...share, `These cannot all be kept; without any one of them the others can: ${members}.`];
}

function volumeLines({ upTo, verdict, units }: JudgedDocument): string[] {
  if (upTo === undefined || verdict === 'take only up to') return [];
  return [`At its own price a firm volume of up to ${formatFigure(upTo, 1)} ${units.mass} a month pays.`];
}

function countingLines({
  counting,
  detailCounting,
  quote,
  terms,
  calls,
  alone,
  uncertain,
}: JudgedDocument): string[] {
  if (counting === 'in parts') return ['Whole shifts and windows are counted in parts.'];
  if (counting === undefined || detailCounting !== 'in parts') return [];
  const named = [
    ...(quote === undefined ? [] : ['the quotes']),
    ...(terms.length === 0 ? [] : ['the terms']),
    ...(calls.length === 0 ? [] : ["the buyer's calls"]),
    ...(alone.length === 0 ? [] : ["each material's price"]),
    ...(uncertain === undefined ? [] : ['the draws']),
  ];
  if (named.length === 0) return [];
  return [
    `Verdict, gain, break-even and what it displaces count whole shifts; ${listed(named)} count them in parts.`,
  ];
}

function listed(names: readonly string[]): string {
  return names.length === 1 ? names[0] : `${names.slice(0, -1).join(', ')} and ${names[names.length - 1]}`;
}

function solvesLine({ solves }: JudgedDocument): string {
  const parts = [
    [solves.verdict, 'the verdict'],
    [solves.breakEven, 'the break-even'],
    [solves.displaced, 'what it displaces'],
    [solves.alone, "each material's price"],
    [solves.ladder, 'the quotes'],
    [solves.terms, 'the terms'],
    [solves.calls, "the buyer's calls"],
  ] as const;
  const said = parts.filter(([count]) => count > 0).map(([count, what]) => `${count} for ${what}`);
  return `${solves.total} solves: ${listed(said)}.`;
}
