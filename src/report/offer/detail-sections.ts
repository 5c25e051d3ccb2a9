import type { TermWorth } from '../../analysis/offer/offer-terms.js';
import type { Plant } from '../../plant/plant.js';
import type { ReportUnits } from '../figure.js';
import { namesOf } from '../names.js';
import type { JudgedDocument } from '../offer-document.js';
import { priceInWords, reasonInWords } from '../offer-words.js';
import type { Section } from '../section.js';

type BreakEven = JudgedDocument['breakEven'];

export function callsSection({ calls, units }: JudgedDocument): Section {
  return {
    title: 'If the buyer calls',
    table: {
      columns: [
        { head: 'what is called', kind: 'text' },
        { head: 'gain, present value', kind: 'money' },
        { head: 'break-even', kind: 'text' },
      ],
      rows: calls.map(({ call, gain, breakEven }) => [CALLS[call], gain, breakEvenInWords(breakEven, units)]),
    },
  };
}

const CALLS = { expected: 'as expected', minimum: 'the minimum', maximum: 'the maximum' } as const;

/** Where the offer has a price for each of several materials. */
export function aloneSection({ alone, units }: JudgedDocument, plant: Plant): Section {
  return {
    title: "Break-even of each material's price, the others as offered",
    table: {
      columns: [
        { head: 'material', kind: 'text' },
        { head: 'as offered', kind: 'text' },
        { head: 'break-even', kind: 'text' },
      ],
      rows: alone.map(({ material, ...breakEven }) => [
        namesOf(plant).materials[material] ?? material,
        priceInWords(breakEven.own, breakEven, units),
        breakEvenInWords(breakEven, units),
      ]),
    },
  };
}

function breakEvenInWords(breakEven: BreakEven, units: ReportUnits): string {
  const { price, reason } = breakEven;
  if (price !== undefined) return priceInWords(price, breakEven, units);
  return reason === undefined ? '' : reasonInWords(reason);
}

export function termsSection({ terms }: JudgedDocument): Section {
  const isOpen = terms.some(({ within }) => within !== undefined);
  const isUnkept = terms.some(({ worth }) => worth === undefined);
  return {
    title: 'What each term is worth',
    table: {
      columns: [
        { head: 'this term changed, all others as offered', kind: 'text' },
        { head: 'worth more, present value', kind: 'money' },
        ...(isOpen ? [{ head: 'give or take', kind: 'money' as const }] : []),
      ],
      rows: terms.map((term) => [named(term), term.worth, ...(isOpen ? [term.within ?? 0] : [])]),
    },
    notes: isUnkept ? ['Where no worth is given no plan can keep the changed offer.'] : [],
  };
}

function named({ change, measure }: TermWorth): string {
  return measure === undefined ? change : `${change}: ${measure}`;
}

export function uncertainSection({ uncertain }: JudgedDocument): Section {
  const drawn = uncertain !== undefined && 'remade' in uncertain ? uncertain : undefined;
  const rows =
    drawn === undefined
      ? []
      : (['kept', 'remade'] as const).flatMap((key) => {
          const { distribution, regret } = drawn[key];
          if (distribution === undefined) return [];
          const at = (share: number) => distribution.quantiles.find((each) => each.share === share)?.value;
          return [[PLANS[key], distribution.mean, at(0.05), at(0.5), at(0.95), regret]];
        });
  return {
    title: 'Gain when uncertain numbers are drawn',
    table: {
      columns: [
        { head: 'both plans', kind: 'text' },
        { head: 'mean', kind: 'money' },
        { head: '5 %', kind: 'money' },
        { head: 'median', kind: 'money' },
        { head: '95 %', kind: 'money' },
        { head: 'chance of regret', kind: 'share' },
      ],
      rows,
    },
    notes: drawn === undefined ? [] : drawNotes(drawn),
  };
}

const PLANS = { kept: 'kept as made in advance', remade: 'made anew once known' } as const;

function drawNotes({
  draws,
  seed,
  kept,
  withoutPlan: { without, signed, both },
}: Extract<NonNullable<JudgedDocument['uncertain']>, { readonly remade: unknown }>): string[] {
  const lacking = [
    ...(signed > 0 ? [`${signed} have no plan with the offer only`] : []),
    ...(without > 0 ? [`${without} have none without it only`] : []),
    ...(both > 0 ? [`${both} have none either way`] : []),
  ];
  return [
    `${draws} draws from seed ${seed}, the same for both plans; in ${kept.distribution?.count ?? 0} of them both plans made in advance can be kept. Regret: it would have been better not to sign.${
      lacking.length === 0 ? '' : ` Of them ${lacking.join(', ')}.`
    }`,
  ];
}
