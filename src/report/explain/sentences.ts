import type { BriefExplanation } from '../../analysis/explain/brief-explanation.js';
import type { Firmness, Rent } from '../../analysis/explain/explanation.js';
import { isPromise, type LimitKey } from '../../analysis/limits/plan-limit.js';
import type { Plant } from '../../plant/plant.js';
import { formatKind, formatMoney, type ReportUnits } from '../figure.js';
import { type Names, namesOf } from '../names.js';
import { changesWords, numberAmount, numberWords } from './firmness-words.js';
import { limitAmount, limitUnit, limitWords } from './limit-words.js';

/** Sentences of the short form: no more than seven. */
const MOST = 7;

/** A plan explained in a few plain sentences, each computed from its figures; the most telling first. */
export function explanationSentences(plant: Plant, explanation: BriefExplanation): string[] {
  const words = { names: namesOf(plant), units: plant.units, plant };
  const leading = leadingRents(explanation.rents);
  return [
    ...twoRents(leading).map((rents) => rentSentence(rents, words)),
    ...promiseSentence(explanation.rents, words),
    ...restingStep(explanation, words),
    ...idleOutlet(explanation, words),
    ...firmSentence(explanation.firmness, words),
    ...(explanation.staffed
      ? [
          'All of this holds for the staffing of the plan; what a shift more or less is worth takes a new solve.',
        ]
      : []),
    ...worthSentences(explanation, words),
  ].slice(0, MOST);
}

interface Words {
  readonly names: Names;
  readonly units: ReportUnits;
  readonly plant: Plant;
}

/** Rents of which more brings money, by limit without its month, the largest first. */
function leadingRents(rents: readonly Rent[]): Rent[][] {
  const byLimit = new Map<string, Rent[]>();
  for (const rent of rents) {
    if ((rent.oneMore ?? 0) <= 0) continue;
    const name = JSON.stringify({ ...rent.limit, month: 0 });
    byLimit.set(name, [...(byLimit.get(name) ?? []), rent]);
  }
  const total = (list: readonly Rent[]) => list.reduce((sum, { reach }) => sum + reach, 0);
  return [...byLimit.values()].sort((a, b) => total(b) - total(a));
}

/** The largest, and with it the largest of hours, or else the next. */
function twoRents(leading: readonly Rent[][]): Rent[][] {
  const [first, second] = leading;
  if (first === undefined) return [];
  const ofHours = ([rent]: readonly Rent[]) => rent.unit === 'machine-hour' || rent.unit === 'crew-hour';
  const other = ofHours(first) ? second : (leading.find(ofHours) ?? second);
  return other === undefined ? [first] : [first, other];
}

function rentSentence(rents: readonly Rent[], words: Words): string {
  const { names, units, plant } = words;
  const [rent] = rents;
  const money = formatMoney(rent.oneMore ?? 0, units.currency);
  const up = rent.holdsTo === undefined ? '' : `, up to ${limitAmount(rent.holdsTo, rent.unit, units)}`;
  const often = rents.length > 1 ? `; it binds in ${rents.length} of ${plant.months.length} months` : '';
  return `${capital(limitWords(rent.limit, names))}: one ${limitUnit(rent.unit, units)} more ${when(rent.limit, words)}would bring ${money}${up}${often}.`;
}

/** The promise that costs most: a minimum whose last unit is delivered at a loss. */
function promiseSentence(rents: readonly Rent[], { names, units, ...words }: Words): string[] {
  const promises = rents.filter(({ limit, oneLess }) => isPromise(limit) && (oneLess ?? 0) < 0);
  const [dearest] = [...promises].sort((a, b) => (a.oneLess ?? 0) - (b.oneLess ?? 0));
  if (dearest?.oneLess === undefined) return [];
  const money = formatMoney(-dearest.oneLess, units.currency);
  const place = when(dearest.limit, { names, units, ...words });
  return [
    `${capital(limitWords(dearest.limit, names))}: its last ${limitUnit(dearest.unit, units)} ${place}costs ${money}.`,
  ];
}

/** The step that rests in every month and comes closest to running. */
function restingStep({ steps }: BriefExplanation, { names, units, plant }: Words): string[] {
  const resting = plant.steps.filter(({ id }) =>
    steps.every((each) => each.step !== id || each.mass <= 1e-7),
  );
  const accounts = steps
    .filter(({ step, gain }) => gain < -1e-9 && resting.some(({ id }) => id === step))
    .sort((a, b) => b.gain - a.gain);
  const [nearest] = accounts;
  if (nearest === undefined) return [];
  const money = (amount: number) => formatMoney(amount, units.currency);
  const running = nearest.power + nearest.wear + nearest.machine + nearest.crew + nearest.peak;
  return [
    `${names.steps[nearest.step]} rests: a ${units.mass} worth ${money(nearest.worthIn)} would become goods worth ${money(nearest.worthOut)} and take ${money(running)} of power, wear, crew and machine, a loss of ${money(-nearest.gain)}.`,
  ];
}

/** The outlet that gets nothing in any month and comes closest to getting something. */
function idleOutlet({ idleOutlet: nearest }: BriefExplanation, { names, units }: Words): string[] {
  if (nearest?.what.kind !== 'outlet') return [];
  const { what, comesInAt, price: paid, forced } = nearest;
  if (comesInAt === undefined || paid === undefined) return [];
  const price = (amount: number) =>
    `${formatKind(amount, 'money by mass', units)} ${units.currency}/${units.mass}`;
  const loss =
    forced === undefined
      ? ''
      : `; ${formatKind(forced.mass, 'mass', units)} ${units.mass} sent there now would cost ${formatMoney(forced.loss, units.currency)}`;
  return [
    `Nothing goes to ${names.outlets[what.outlet]}: from ${price(comesInAt)} on it would, it pays ${price(paid)}${loss}.`,
  ];
}

/** The price whose smallest move, relative to itself, changes the plan. */
function firmSentence(firmness: readonly Firmness[], { names, units }: Words): string[] {
  const sides = firmness.flatMap((entry) =>
    (['less', 'more'] as const).flatMap((side) => {
      const { by, changes } = entry[side];
      const size = Math.max(...entry.now.map(Math.abs));
      return by === undefined || by <= 0 || size === 0 || changes.length === 0
        ? []
        : [{ entry, side, by, changes, share: by / size }];
    }),
  );
  const [nearest] = sides.sort((a, b) => a.share - b.share);
  if (nearest === undefined) return [];
  const { entry, side, by, changes } = nearest;
  const constant = entry.now.every((amount) => amount === entry.now[0]);
  const until = side === 'less' ? entry.now[0] - by : entry.now[0] + by;
  const move = constant
    ? `${side === 'less' ? 'below' : 'above'} ${numberAmount(until, entry.unit, units)}`
    : `with more than ${numberAmount(by, entry.unit, units)} ${side === 'less' ? 'less' : 'on top'} in every month`;
  return [
    `The plan hangs most on the ${numberWords(entry.number, names)}: ${move} it changes, first by ${changesWords(changes, names, units)}.`,
  ];
}

/** What a mass unit more at the gate would be worth, fee aside, where it is worth most. */
function worthSentences({ worth }: BriefExplanation, { names, units, plant }: Words): string[] {
  const fed = new Set(plant.feeds.map(({ material }) => material));
  const entries = worth.filter(({ material }) => fed.has(material));
  return entries.slice(0, 2).map(({ material, byMonth }) => {
    const [least, most] = [Math.min(...byMonth), Math.max(...byMonth)];
    const money = (amount: number) => formatMoney(amount, units.currency);
    const range = money(least) === money(most) ? money(most) : `${money(least)} to ${money(most)} by month`;
    return `One ${units.mass} more of ${names.materials[material]} in the plant, its fee aside, is worth ${range}.`;
  });
}

function when({ month }: LimitKey, { plant }: Words): string {
  return plant.months.length === 1 ? '' : `in ${plant.months[month].label} `;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
