import type { ReportUnits } from '../../report/figure.js';
import type { ScenarioNumber } from '../../report/scenario-numbers.js';
import type { ApiServices } from '../api/services.js';
import { storedScenarioOf } from '../api/stored-scenario-of.js';
import type { PageQuestion } from './ask.js';
import type { ScenarioPage } from './scenario-page.js';
import { readNumber } from './trial.js';
import type { WhatIf } from './what-if-forms.js';

export type Asking =
  | { readonly kind: 'question'; readonly question: PageQuestion }
  /** The form was not filled in yet, or says something that is no figure. */
  | { readonly kind: 'not yet'; readonly say: string };

/** The question that a form of the page asks. */
export async function whatIfQuestion(
  services: ApiServices,
  page: ScenarioPage,
  what: WhatIf,
): Promise<Asking> {
  const { document: scenario, query } = page;
  const asked = (question: string, options: PageQuestion['options']): Asking => ({
    kind: 'question',
    question: { question, scenario, options },
  });
  const figure = (name: string) => readNumber(query.get(name) ?? '');
  switch (what) {
    case 'sweep': {
      const [pointer, from, to] = [query.get('number') ?? '', figure('from'), figure('to')];
      if (!page.numbers.some((each) => each.pointer === pointer))
        return notYet('Choose a number, and from where to where it may go.');
      if (from === undefined || to === undefined)
        return notYet('Write both ends of the range as numbers, such as 0.5 and 3.');
      return asked('sweep', { parameter: { pointers: [pointer], kind: 'value' }, from, to });
    }
    case 'fee': {
      const ids = Array.isArray(scenario.feeds) ? scenario.feeds.map(({ id }) => String(id)) : [];
      const feeds = ids.flatMap((feed) => {
        const [low, high] = [figure(`low-${feed}`), figure(`high-${feed}`)];
        return low === undefined || high === undefined ? [] : [{ feed, low, high }];
      });
      if (feeds.length === 0)
        return notYet('Write the range of at least one fee: from where to where it may go.');
      return asked('fee', { feeds });
    }
    case 'tornado': {
      const percent = figure('percent');
      if (!query.has('percent')) return notYet('Say by how much the numbers are moved.');
      if (percent === undefined || percent <= 0 || percent >= 100)
        return notYet('Write a percentage between 0 and 100.');
      const [low, high] = [1 - percent / 100, 1 + percent / 100];
      return asked('tornado', { items: rankedItems(page.numbers, low, high) });
    }
    case 'risk': {
      const [draws, seed, level] = [figure('draws'), figure('seed'), figure('level')];
      if (!query.has('draws'))
        return notYet('Say how many draws to make over the numbers that the scenario calls uncertain.');
      if (draws === undefined || seed === undefined) return notYet('Write draws and seed as whole numbers.');
      return asked('risk', { draws, seed, ...(level === undefined ? {} : { level }) });
    }
    case 'compare': {
      const other = query.get('other');
      if (other === null) return notYet('Choose another scenario.');
      const { text } = await storedScenarioOf(services, other);
      const after = JSON.parse(text.replace(/^\uFEFF/, ''));
      const [own, others] = [page.units, after.units as ReportUnits];
      if (own.mass !== others.mass || own.currency !== others.currency)
        return notYet(
          `That one is in ${others.mass} and ${others.currency}, this one in ${own.mass} and ${own.currency}: choose one of the same units.`,
        );
      return asked('comparison', { after: { scenario: after } });
    }
  }
}

/** Prices, fees and charges, and what machines give: the numbers that are ranked. */
const PRICES =
  /\/(price|tippingFee|powerPrice|wage|charge|haulage|freight|base|throughput|passThroughput|availability|available|perMonth)$/;
const MOST_BARS = 60;

/** The numbers that are ranked, each moved by the same factors. */
export function rankedItems(numbers: readonly ScenarioNumber[], low: number, high: number) {
  return numbers
    .filter(({ pointer, value }) => PRICES.test(pointer) && value !== 0)
    .slice(0, MOST_BARS)
    .map(({ pointer }) => ({ parameter: { pointers: [pointer], kind: 'factor' as const }, low, high }));
}

function notYet(say: string): Asking {
  return { kind: 'not yet', say };
}
