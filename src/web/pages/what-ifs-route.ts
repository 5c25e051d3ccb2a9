import { html, type Markup } from '../../report/html/markup.js';
import { namedReport } from '../../report/html/named-report.js';
import { questionBody } from '../../report/html/question-body.js';
import { unitsNote } from '../../report/html/standalone.js';
import { printable } from '../../report/printable.js';
import type { ApiContext } from '../api/route.js';
import type { ApiServices } from '../api/services.js';
import { ask } from './ask.js';
import { faultNote, problemsNote } from './failure-page.js';
import { streamedResponse } from './markup-response.js';
import { type ScenarioPage, scenarioPage } from './scenario-page.js';
import { shellHead, shellRest } from './shell.js';
import { WHAT_IFS, type WhatIf, whatIfForm } from './what-if-forms.js';
import { whatIfQuestion } from './what-if-question.js';
import { whatIfReport } from './what-if-report.js';

/** Numbers moved one by one, ranked, drawn at random; two scenarios compared. */
export async function whatIfsRoute(services: ApiServices, context: ApiContext): Promise<Response> {
  const page = await scenarioPage(services, context, 'what-ifs');
  const head = shellHead({
    title: `${page.title}: what-ifs`,
    scenario: page.shell,
    scripts: ['redraw', 'long-question'],
  });
  return streamedResponse(
    head,
    content(services, page)
      .catch(faultNote)
      .then((body) => shellRest(body)),
  );
}

async function content(services: ApiServices, page: ScenarioPage): Promise<Markup> {
  const what = WHAT_IFS.find(([name]) => name === page.query.get('what'))?.[0] ?? 'sweep';
  return html`<h1>${printable(page.title)}: what-ifs</h1>
${whatIfForm(page, what)}
<div id="result">${await result(services, page, what)}</div>
<p class="note">${unitsNote(page.units)} Values are present values unless they say margin.</p>`;
}

async function result(services: ApiServices, page: ScenarioPage, what: WhatIf): Promise<Markup> {
  const asking = await whatIfQuestion(services, page, what);
  if (asking.kind === 'not yet') return html`<p>${asking.say}</p>`;
  const answer = await ask(services, asking.question);
  if (answer.kind === 'problems') return problemsNote(answer.detail, answer.problems);
  const report = whatIfReport(asking.question, answer.document);
  if (report === undefined)
    return html`<div class="problems">${reasonsOf(answer.document).map((reason) => html`<p>${reason}</p>`)}</div>`;
  const { tables } = report;
  return html`${questionBody(namedReport(report, page.numbers))}
<p class="screen">Take it along: ${tables.map(({ name }, i) => html`${i > 0 && ' · '}<a href="/scenarios/${page.name}/what-ifs/${name}.csv?${page.query.toString()}">${name}.csv</a>`)}</p>`;
}

function reasonsOf(document: unknown): string[] {
  const { reasons } = document as { readonly reasons?: readonly string[] };
  return [...(reasons ?? ['There is no answer.'])];
}
