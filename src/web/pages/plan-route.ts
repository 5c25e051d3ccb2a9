import { formatFigure } from '../../report/figure.js';
import type { SavedMargin } from '../../report/html/answer-line.js';
import { html, type Markup } from '../../report/html/markup.js';
import { cautionsNote, planPage } from '../../report/html/plan-page.js';
import { unitsNote } from '../../report/html/standalone.js';
import type { PlanDocument, PlannedDocument } from '../../report/plan-document.js';
import { printable } from '../../report/printable.js';
import type { ApiContext } from '../api/route.js';
import type { ApiServices } from '../api/services.js';
import { ask, type PageServices } from './ask.js';
import { problemsNote } from './failure-page.js';
import { numberOptions, type ScenarioPage, scenarioPage } from './scenario-page.js';
import { streamedPage } from './streamed-page.js';
import { type Trial, trialOf } from './trial.js';

/** With whole shifts the page stops at this gap, a share of the money that moves, and says what it reached. */
export const PAGE_GAP = 0.002;

/** The plan of a stored scenario, or of the same with other numbers in it. */
export async function planRoute(services: ApiServices, context: ApiContext): Promise<Response> {
  const page = await scenarioPage(services, context, 'plan');
  const shell = { title: `${page.title}: plan`, scenario: page.shell, scripts: ['redraw'] } as const;
  return streamedPage(services, shell, (asking) => content(asking, page));
}

async function content(services: PageServices, page: ScenarioPage): Promise<Markup> {
  const { title, units, document, query } = page;
  const trial = trialOf(document, page.numbers, query);
  const isTrial = trial.tried.length > 0;
  const [answer, saved] = await Promise.all([
    planOf(services, trial.document),
    isTrial ? storedPlan(services, page) : lastVersion(services, page),
  ]);
  const head = html`<h1>${printable(title)}</h1>${trialForm(page, trial)}`;
  if (!('months' in answer))
    return html`${head}<div id="result">${triedList(trial, query)}${answerNote(answer)}${whyLink(page)}</div>`;
  const month = answer.months.findIndex((each) => each.month === query.get('month'));
  const body = planPage(answer, {
    month: month < 0 ? undefined : month,
    ...(saved === undefined ? {} : { saved }),
    addressOf: (chosen) => addressOf(query, chosen),
    later: whyLink(page),
  });
  return html`${head}<div id="result">${trial.problems.map((problem) => html`<p class="problem">${problem}</p>`)}${triedList(trial, query)}
${body}
${downloads(page, query)}
${cautionsNote(answer)}</div>
<p class="note">${unitsNote(units)}</p>`;
}

/** The way to the reasons, which come later by themselves where scripts run. */
function whyLink({ name, query }: ScenarioPage): Markup {
  const address = `/scenarios/${name}/why${tailOf(query)}`;
  return html`<div data-part="why" data-later="${address}"><p class="screen"><a href="${address}">Why: what binds, what was left alone, how firm it is</a></p></div>`;
}

type Problems = { readonly problems: Markup };

/** The plan of a scenario's document as the API gives it. */
export async function planOf(services: PageServices, scenario: unknown): Promise<PlanDocument | Problems> {
  const answer = await ask(services, { question: 'plan', scenario, options: { gap: PAGE_GAP } });
  if (answer.kind === 'document') return answer.document as PlanDocument;
  return { problems: problemsNote(answer.detail, answer.problems) };
}

function answerNote(answer: Exclude<PlanDocument, PlannedDocument> | Problems): Markup {
  if ('problems' in answer) return answer.problems;
  return html`<div class="problems"><h2>No plan</h2>${answer.reasons.map((reason) => html`<p>${reason}</p>`)}</div>`;
}

async function storedPlan(
  services: PageServices,
  { document }: ScenarioPage,
): Promise<SavedMargin | undefined> {
  const plan = await planOf(services, document);
  return 'months' in plan ? { name: 'as it is saved', document: plan } : undefined;
}

/** The plan of the version that was replaced last, where it was planned for the same months. */
async function lastVersion(
  services: PageServices,
  { name, document }: ScenarioPage,
): Promise<SavedMargin | undefined> {
  const last = (await services.library.folder.versions(name)).at(-1);
  if (last === undefined) return undefined;
  const reading = await services.library.readVersion(name, last.version);
  if (reading.kind !== 'good') return undefined;
  const before = JSON.parse(reading.scenario.text.replace(/^\uFEFF/, ''));
  const isAlike =
    JSON.stringify([before.horizon, before.units]) === JSON.stringify([document.horizon, document.units]);
  if (!isAlike) return undefined;
  const plan = await planOf(services, before);
  return 'months' in plan ? { name: `the version before (${last.version})`, document: plan } : undefined;
}

/** A form that tries another number; it keeps those that are being tried. */
function trialForm({ numbers }: ScenarioPage, { tried }: Trial): Markup {
  const kept = tried.map(
    ({ pointer, value }) => html`<input type="hidden" name="set" value="${pointer}=${value}">`,
  );
  return html`<form method="get" class="bar screen try" data-redraw>
<div class="field"><label for="number">Try another number</label>
<select id="number" name="number"><option value="">choose one …</option>${numberOptions(numbers, undefined)}</select></div>
<div class="field"><label for="value">Value</label><span class="row"><input id="value" name="value" class="number" inputmode="decimal" autocomplete="off"> <span class="unit" data-unit></span></span></div>
${kept}<button>Plan with it</button>
</form>`;
}

function triedList({ tried }: Trial, query: URLSearchParams): Markup | undefined {
  if (tried.length === 0) return undefined;
  const without = (pointer: string | undefined) => {
    const left = new URLSearchParams(query);
    for (const key of ['set', 'number', 'value']) left.delete(key);
    for (const each of tried)
      if (pointer !== undefined && each.pointer !== pointer)
        left.append('set', `${each.pointer}=${each.value}`);
    return `?${left}`;
  };
  return html`<div class="trial"><b>Tried, not saved:</b>
<ul>${tried.map(
    ({ name, unit, before, value, pointer }) =>
      html`<li>${name} ${figure(before)} → <b>${figure(value)}</b> ${unit} <a class="screen" href="${without(pointer)}">as it was<span class="skip"> (${name})</span></a></li>`,
  )}</ul></div>`;
}

function figure(value: number): string {
  return formatFigure(value, String(value).split('.')[1]?.length ?? 0);
}

function addressOf(query: URLSearchParams, month: string | undefined): string {
  const next = new URLSearchParams(query);
  next.delete('month');
  if (month !== undefined) next.set('month', month);
  return `?${next}`;
}

function downloads({ name }: ScenarioPage, query: URLSearchParams): Markup {
  const tail = tailOf(query);
  return html`<p class="screen">Take it along: <a href="/scenarios/${name}/plan.xlsx${tail}">workbook (.xlsx)</a> · <a href="/scenarios/${name}/plan.html${tail}">one page to send on (.html)</a> · or print this page.</p>`;
}

function tailOf(query: URLSearchParams): string {
  return query.toString() === '' ? '' : `?${query}`;
}
