import { readPlantDocument } from '../../plant/read-plant.js';
import { csvText } from '../../report/csv.js';
import { html, type Markup } from '../../report/html/markup.js';
import { type OfferTables, offerPage, offerQuotes, offerTables } from '../../report/html/offer-page.js';
import { unitsNote } from '../../report/html/standalone.js';
import type { OfferDocument } from '../../report/offer-document.js';
import { printable } from '../../report/printable.js';
import { Refusal } from '../api/refusal.js';
import type { ApiContext } from '../api/route.js';
import type { ApiServices } from '../api/services.js';
import { ask, type PageAnswer, type PageServices } from './ask.js';
import { csvResponse } from './csv-response.js';
import { problemsNote } from './failure-page.js';
import { chooser, problemsByField, termsForm } from './offer-form.js';
import { type Contract, listOf, type OpenForm, openForm } from './open-offer.js';
import { PAGE_GAP } from './plan-route.js';
import { type ScenarioPage, scenarioPage } from './scenario-page.js';
import { streamedPage } from './streamed-page.js';
import { readNumber } from './trial.js';

/** Parts of the answer: those of the verdict come first, the others take longer. */
const VERDICT = ['displaced'];
const QUOTES = ['ladder', 'terms', 'calls'];

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

/** A table of the judgement, or of the quotes, as CSV: the terms are in the address, as on the page. */
export async function offerCsvRoute(services: ApiServices, context: ApiContext): Promise<Response> {
  const page = await scenarioPage(services, context, 'offer');
  const reading = readPlantDocument(page.document);
  const { contract } = openForm(page).form;
  for (const parts of [VERDICT, QUOTES]) {
    const answer = await judge(services, page, contract, parts);
    if (answer.kind === 'problems' || !reading.ok) break;
    const { tables, units } = offerTables(reading.plant, answer.document as OfferDocument);
    const found = tables.find(({ name }) => `${name}.csv` === context.req.param('file'));
    if (found !== undefined) return csvResponse(found.name, csvText(found.table, units));
  }
  throw new Refusal('not-found', 'There is no such table.');
}

/** What takes longer of the same offer: the prices to quote by volume, the worth of each term. */
export async function quotesRoute(services: ApiServices, context: ApiContext): Promise<Response> {
  const page = await scenarioPage(services, context, 'offer');
  const quotes = async (asking: PageServices): Promise<Markup> => {
    const { form } = openForm(page);
    const answer = await judge(asking, page, form.contract, QUOTES);
    if (answer.kind === 'problems') return problemsNote(answer.detail, answer.problems);
    const reading = readPlantDocument(page.document);
    if (!reading.ok) return problemsNote('The scenario has problems.', reading.problems);
    const document = answer.document as OfferDocument;
    return html`<h1>${printable(page.title)}: what to quote</h1><div data-part="quotes">${offerQuotes(reading.plant, document)}${downloads(page, offerTables(reading.plant, document))}</div>`;
  };
  return streamedPage(services, { title: `${page.title}: what to quote`, scenario: page.shell }, quotes);
}

async function content(services: PageServices, page: ScenarioPage): Promise<Markup> {
  const { query, title, units } = page;
  const open = openForm(page);
  const { offers, base, isNew, form } = open;
  const isAsked = !isNew || query.has('price');
  const isSound = Object.keys(form.problems).length === 0;
  const answer = isAsked && isSound ? await judge(services, page, form.contract, VERDICT) : undefined;
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
${offerPage(reading.plant, answer.document as OfferDocument, later)}
${downloads(page, offerTables(reading.plant, answer.document as OfferDocument))}`;
}

function downloads({ name, query }: ScenarioPage, { tables }: OfferTables): Markup | false {
  const links = tables.map(
    (table, i) =>
      html`${i > 0 && ' · '}<a href="/scenarios/${name}/offer/${table.name}.csv?${query.toString()}">${table.name}.csv</a>`,
  );
  return tables.length > 0 && html`<p class="screen">Take it along: ${links}</p>`;
}
