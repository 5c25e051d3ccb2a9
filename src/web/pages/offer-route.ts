import type { Problem } from '../../issue/problem.js';
import { readPlantDocument } from '../../plant/read-plant.js';
import { unitOf } from '../../report/figure.js';
import { html, type Markup } from '../../report/html/markup.js';
import { offerPage, offerQuotes } from '../../report/html/offer-page.js';
import { unitsNote } from '../../report/html/standalone.js';
import type { OfferDocument } from '../../report/offer-document.js';
import { printable } from '../../report/printable.js';
import type { ApiContext } from '../api/route.js';
import { isObject } from '../api/schema.js';
import type { ApiServices } from '../api/services.js';
import { ask, type PageAnswer } from './ask.js';
import { faultNote, problemsNote } from './failure-page.js';
import { streamedResponse } from './markup-response.js';
import { type FormOffer, offerOf, priceBasis, type TermField, termFields, termText } from './offer-terms.js';
import { PAGE_GAP } from './plan-route.js';
import { type ScenarioPage, scenarioPage } from './scenario-page.js';
import { shellHead, shellRest } from './shell.js';
import { readNumber } from './trial.js';

type Contract = Readonly<Record<string, unknown>>;

/** An offer of a stored scenario, or another one, as a form beside its judgement. */
export async function offerRoute(services: ApiServices, context: ApiContext): Promise<Response> {
  const page = await scenarioPage(services, context, 'offer');
  const head = shellHead({
    title: `${page.title}: offer`,
    scenario: page.shell,
    scripts: ['redraw', 'offer'],
  });
  return streamedResponse(
    head,
    content(services, page)
      .catch(faultNote)
      .then((body) => shellRest(body)),
  );
}

/** What takes longer of the same offer: the prices to quote by volume, the worth of each term. */
export async function quotesRoute(services: ApiServices, context: ApiContext): Promise<Response> {
  const page = await scenarioPage(services, context, 'offer');
  const head = shellHead({ title: `${page.title}: what to quote`, scenario: page.shell });
  const quotes = async (): Promise<Markup> => {
    const { form } = openForm(page);
    const answer = await judge(services, page, form.contract, ['ladder', 'terms', 'calls']);
    if (answer.kind === 'problems') return problemsNote(answer.detail, answer.problems);
    const reading = readPlantDocument(page.document);
    if (!reading.ok) return problemsNote('The scenario has problems.', reading.problems);
    return html`<h1>${printable(page.title)}: what to quote</h1><div data-part="quotes">${offerQuotes(reading.plant, answer.document as OfferDocument)}</div>`;
  };
  return streamedResponse(
    head,
    quotes()
      .catch(faultNote)
      .then((body) => shellRest(body)),
  );
}

interface OpenForm {
  readonly offers: readonly Contract[];
  /** The offer as it is stored, or a new one. */
  readonly base: Contract;
  readonly isNew: boolean;
  readonly form: FormOffer;
}

function openForm(page: ScenarioPage): OpenForm {
  const { query, document } = page;
  const offers = listOf(document.offers);
  const chosen = offers.find(({ id }) => id === query.get('offer'));
  const base = chosen ?? (query.get('offer') === 'new' || offers.length === 0 ? blank(page) : offers[0]);
  return { offers, base, isNew: !offers.includes(base), form: offerOf(base, query) };
}

async function content(services: ApiServices, page: ScenarioPage): Promise<Markup> {
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
<form method="get" class="screen-form" data-redraw="change" aria-label="Terms of the offer">${fields(page, base, form, problems)}</form>
<div id="result">${result(page, open, answer)}</div>
</div>
<p class="note">${unitsNote(units)} Present value unless it says margin. A contract's terms need a lawyer before anyone signs.</p>`;
}

/** The same question that the API is asked: the contract stands in the question itself. */
function judge(
  services: ApiServices,
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

function chooser(offers: readonly Contract[], id: string, isNew: boolean): Markup {
  return html`<form method="get" class="bar screen"><div class="field"><label for="offer">Offer</label>
<select id="offer" name="offer">${offers.map((each) => html`<option value="${String(each.id)}"${each.id === id && html` selected`}>${nameOf(each)}</option>`)}<option value="new"${isNew && html` selected`}>another one …</option></select></div><button class="quiet">Open</button></form>`;
}

function fields(
  { document, units, query }: ScenarioPage,
  base: Contract,
  { contract }: FormOffer,
  problems: Readonly<Record<string, string>>,
): Markup {
  const materials = listOf(document.materials);
  const chosen = listOfText(contract.materials);
  const unit = (field: TermField) => {
    if (field.kind === 'days') return 'days';
    if (field.kind === 'mass') return unitOf('mass', units);
    if (field.kind === 'share' || field.kind === 'date' || field.kind === 'text') return '';
    return `${units.currency}/${priceBasis(base, field) ?? units.mass}`;
  };
  const own = (name: string, label: string, text: string, rest: Markup | string = '', number = true) =>
    html`<div class="field"><label for="f-${name}">${label}</label><span class="row"><input id="f-${name}" name="${name}" value="${text}"${number && html` class="number" inputmode="decimal"`} autocomplete="off"${problems[name] !== undefined && html` aria-invalid="true" aria-describedby="p-${name}"`}> <span class="unit">${rest}</span></span>${problems[name] !== undefined && html`<span class="problem" id="p-${name}">${problems[name]}</span>`}</div>`;
  return html`<input type="hidden" name="offer" value="${String(base.id)}">
<fieldset><legend>The offer</legend>
${own('name', 'Name', String(contract.name ?? ''), '', false)}
${own('buyer', 'Buyer', String(contract.buyer ?? ''), '', false)}
<div class="field"><label for="f-material">Material</label><select id="f-material" name="material"${chosen.length > 1 && html` multiple size="4"`}>${materials.map(({ id, name }) => html`<option value="${String(id)}"${chosen.includes(String(id)) && html` selected`}>${String(name ?? id)}</option>`)}</select></div>
</fieldset>
<fieldset><legend>Terms</legend>
${termFields(base).map((field) => own(field.name, field.label, query.get(field.name) ?? termText(contract, field), unit(field), field.kind !== 'date'))}
</fieldset>
<fieldset><legend>What to ask of it</legend>
${own('margin', 'Gain to ask for, present value', query.get('margin') ?? '', units.currency)}
${own('priceLimit', 'What the buyer would pay at most', query.get('priceLimit') ?? '', 'in the unit of the price')}
<div class="field"><label for="f-counting">Whole shifts</label><select id="f-counting" name="counting"><option value="in parts">counted in parts: quick</option><option value="whole"${query.get('counting') === 'whole' && html` selected`}>as they are: slow</option></select></div>
</fieldset>
<p><button>Judge it</button></p>`;
}

/** Problems of the answer at the fields they are about; their pointers lead into the offer. */
function problemsByField(base: Contract, problems: readonly Problem[]): Record<string, string> {
  const found: Record<string, string> = {};
  for (const { pointer, message, remedy } of problems) {
    const field = termFields(base).find(({ path }) => pointer.endsWith(`/${path.join('/')}`));
    if (field !== undefined) found[field.name] = `${message} ${remedy}`;
  }
  return found;
}

/** A new offer on the horizon's months, of the first material that anybody buys; its figures are the user's to give. */
function blank({ document }: ScenarioPage): Contract {
  const horizon = isObject(document.horizon) ? document.horizon : {};
  const [material] = listOf(document.outlets).map((outlet) => String(outlet.material));
  const first = String(horizon.firstMonth);
  return {
    id: 'new-offer',
    name: 'New offer',
    buyer: 'Buyer',
    materials: material === undefined ? [] : [material],
    from: `${first}-01`,
    to: lastDay(first, Number(horizon.months)),
  };
}

/** The last day of the horizon's last month. */
function lastDay(firstMonth: string, months: number): string {
  const [year, month] = firstMonth.split('-').map(Number);
  return new Date(Date.UTC(year, month - 1 + months, 0)).toISOString().slice(0, 10);
}

function nameOf({ id, name, buyer }: Contract): string {
  return `${String(name ?? id)}, ${String(buyer ?? '')}`;
}

function listOf(value: unknown): readonly Contract[] {
  return Array.isArray(value) ? value.filter(isObject) : [];
}

function listOfText(value: unknown): string[] {
  return Array.isArray(value) ? value.map(String) : [];
}
