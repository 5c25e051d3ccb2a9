import type { Problem } from '../../issue/problem.js';
import { unitOf } from '../../report/figure.js';
import { html, type Markup } from '../../report/html/markup.js';
import { type FormOffer, priceBasis, type TermField, termFields, termText } from './offer-terms.js';
import { type Contract, listOf } from './open-offer.js';
import type { ScenarioPage } from './scenario-page.js';

/** The stored offers to choose from, and a new one. */
export function chooser(offers: readonly Contract[], id: string, isNew: boolean): Markup {
  return html`<form method="get" class="bar screen"><div class="field"><label for="offer">Offer</label>
<select id="offer" name="offer">${offers.map((each) => html`<option value="${String(each.id)}"${each.id === id && html` selected`}>${nameOf(each)}</option>`)}<option value="new"${isNew && html` selected`}>another one …</option></select></div><button class="quiet">Open</button></form>`;
}

/** The terms of an offer, each with its unit and what is wrong with it. */
export function termsForm(
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
<fieldset><legend>Terms</legend><div class="terms">
${termFields(base).map((field) => own(field.name, field.label, query.get(field.name) ?? termText(contract, field), unit(field), field.kind !== 'date'))}
</div></fieldset>
<fieldset><legend>What to ask of it</legend>
${own('margin', 'Gain to ask for, present value', query.get('margin') ?? '', units.currency)}
${own('priceLimit', 'What the buyer would pay at most', query.get('priceLimit') ?? '', 'in the unit of the price')}
<div class="field"><label for="f-counting">Whole shifts</label><select id="f-counting" name="counting"><option value="in parts">counted in parts: quick</option><option value="whole"${query.get('counting') === 'whole' && html` selected`}>as they are: slow</option></select></div>
</fieldset>
<p><button>Judge it</button></p>`;
}

/** Problems of the answer at the fields they are about; their pointers lead into the offer. */
export function problemsByField(base: Contract, problems: readonly Problem[]): Record<string, string> {
  const found: Record<string, string> = {};
  for (const { pointer, message, remedy } of problems) {
    const field = termFields(base).find(({ path }) => pointer.endsWith(`/${path.join('/')}`));
    if (field !== undefined) found[field.name] = `${message} ${remedy}`;
  }
  return found;
}

function nameOf({ id, name, buyer }: Contract): string {
  return `${String(name ?? id)}, ${String(buyer ?? '')}`;
}

function listOfText(value: unknown): string[] {
  return Array.isArray(value) ? value.map(String) : [];
}
