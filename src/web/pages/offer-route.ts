import { readPlantDocument } from '../../plant/read-plant.js';
import { html, type Markup } from '../../report/html/markup.js';
import { offerPage, offerQuotes } from '../../report/html/offer-page.js';
import { unitsNote } from '../../report/html/standalone.js';
import type { OfferDocument } from '../../report/offer-document.js';
import { printable } from '../../report/printable.js';
import type { ApiContext } from '../api/route.js';
import type { ApiServices } from '../api/services.js';
import { ask, type PageAnswer, type PageServices } from './ask.js';
import { problemsNote } from './failure-page.js';
import { chooser, problemsByField, termsForm } from './offer-form.js';
import { type Contract, listOf, type OpenForm, openForm } from './open-offer.js';
import { PAGE_GAP } from './plan-route.js';
import { type ScenarioPage, scenarioPage } from './scenario-page.js';
import { streamedPage } from './streamed-page.js';
import { readNumber } from './trial.js';

/** An offer of a stored scenario, or another one, as a form beside its judgement. */
export async function offerRoute(services: ApiServices, context: ApiContext): Promise<Response> {
  const page = await scenarioPage(services, context, 'offer');
  const shell = {
    title: `${page.title}: offer`,
    scenario: page.shell,
    scripts: ['redraw', 'offer'],
  } as const;
  return streamedPage(services, shell, (asking) => content(asking, page));
}

/** What takes longer of the same offer: the prices to quote by volume, the worth of each term. */
export async function quotesRoute(services: ApiServices, context: ApiContext): Promise<Response> {
  const page = await scenarioPage(services, context, 'offer');
  const quotes = async (asking: PageServices): Promise<Markup> => {
    const { form } = openForm(page);
    const answer = await judge(asking, page, form.contract, ['ladder', 'terms', 'calls']);
    if (answer.kind === 'problems') return problemsNote(answer.detail, answer.problems);
    const reading = readPlantDocument(page.document);
    if (!reading.ok) return problemsNote('The scenario has problems.', reading.problems);
    return html`<h1>${printable(page.title)}: what to quote</h1><div data-part="quotes">${offerQuotes(reading.plant, answer.document as OfferDocument)}</div>`;
  };
  return streamedPage(services, { title: `${page.title}: what to quote`, scenario: page.shell }, quotes);
}

async function content(services: PageServices, page: ScenarioPage): Promise<Markup> {
  const { query, title, units } = page;
  const open = openForm(page);
  const { offers, base, isNew, form } = open;
  const isAsked = !isNew || query.has('price');
  const isSound = Object.keys(form.problems).length === 0;
  const answer = isAsked && isSound ? await judge(services, page, form.contract, ['displaced']) : undefined;
  const problems = {
    ...form.problems,
    ...(answer?.kind === 'problems' ? problemsByField(base, answer.problems) : {}),
  };
  return html`<h1>${printable(title)}: offer</h1>
${chooser(offers, String(base.id), isNew)}
<div class="beside">
<form method="get" class="screen-form" data-redraw="change" aria-label="Terms of the offer">${termsForm(page, base, form, problems)}</form>
<div id="result">${result(page, open, answer)}</div>
</div>
<p class="note">${unitsNote(units)} Present value unless it says margin. A contract's terms need a lawyer before anyone signs.</p>`;
}

/** The same question that the API is asked: the contract stands in the question itself. */
function judge(
  services: PageServices,
  { document, query }: ScenarioPage,
  contract: Contract,
  parts: readonly string[],
): Promise<PageAnswer> {
  const { offers, ...others } = document;
  const rest = listOf(offers).filter(({ id }) => id !== contract.id);
  const [margin, priceLimit] = ['margin', 'priceLimit'].map((name) => readNumber(query.get(name) ?? ''));
  const options = {
    offer: contract,
    parts,
    counting: query.get('counting') === 'whole' ? 'whole' : 'in parts',
    gap: PAGE_GAP,
    ...(margin === undefined ? {} : { margin }),
    ...(priceLimit === undefined ? {} : { priceLimit }),
  };
  const scenario = offers === undefined ? others : { ...others, offers: rest };
  return ask(services, { question: 'offer', scenario, options });
}

function result(page: ScenarioPage, open: OpenForm, answer: PageAnswer | undefined): Markup {
  const { document, name, query } = page;
  const { base, form } = open;
  if (Object.keys(form.problems).length > 0)
    return html`<div class="problems" role="alert"><p>Some of the terms are no figures; they are marked.</p></div>`;
  if (answer === undefined) return html`<p>Fill in the terms; the verdict stands here then.</p>`;
  if (answer.kind === 'problems') return problemsNote(answer.detail, answer.problems);
  const reading = readPlantDocument(document);
  if (!reading.ok) return problemsNote('The scenario has problems.', reading.problems);
  const isChanged = JSON.stringify(base) !== JSON.stringify(form.contract) || open.isNew;
  const address = `/scenarios/${name}/offer/quotes?${query.toString()}`;
  const later = html`<div data-part="quotes" data-later="${address}"><p class="screen"><a href="${address}">What to quote by volume, and what each term is worth</a></p></div>`;
  return html`<p class="bar screen" data-offer="${JSON.stringify(form.contract)}" data-scenario="${name}"><button type="button" data-do="save"${!isChanged && html` disabled`}>Save the offer</button> <button type="button" class="quiet" data-do="sign">Sign it into the scenario</button> <span role="status"></span></p>
${offerPage(reading.plant, answer.document as OfferDocument, later)}`;
}
