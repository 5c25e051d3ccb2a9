import { html, type Markup } from '../../report/html/markup.js';
import { questionBody } from '../../report/html/question-body.js';
import { unitsNote } from '../../report/html/standalone.js';
import { printable } from '../../report/printable.js';
import type { ApiContext } from '../api/route.js';
import type { ApiServices } from '../api/services.js';
import type { PageServices } from './ask.js';
import { problemsNote } from './failure-page.js';
import { type ScenarioPage, scenarioPage } from './scenario-page.js';
import { streamedPage } from './streamed-page.js';
import { type WhatIfAnswer, whatIfAnswer, whatIfOf } from './what-if-answer.js';
import { whatIfForm } from './what-if-forms.js';

/** Numbers moved one by one, ranked, drawn at random; two scenarios compared. */
export async function whatIfsRoute(services: ApiServices, context: ApiContext): Promise<Response> {
  const page = await scenarioPage(services, context, 'what-ifs');
  const shell = {
    title: `${page.title}: what-ifs`,
    scenario: page.shell,
    scripts: ['redraw', 'long-question'],
  } as const;
  return streamedPage(services, shell, (asking) => content(asking, page, context.get('client')));
}

async function content(services: PageServices, page: ScenarioPage, client: string): Promise<Markup> {
  return html`<h1>${printable(page.title)}: what-ifs</h1>
${whatIfForm(page, whatIfOf(page.query))}
<div id="result">${result(page, await whatIfAnswer(services, page, client))}</div>
<p class="note">${unitsNote(page.units)} Values are present values unless they say margin.</p>`;
}

function result(page: ScenarioPage, answer: WhatIfAnswer): Markup {
  switch (answer.kind) {
    case 'not yet':
      return html`<p>${answer.say}</p>`;
    case 'problems':
      return problemsNote(answer.detail, answer.problems);
    case 'without plan':
      return html`<div class="problems">${answer.reasons.map((reason) => html`<p>${reason}</p>`)}</div>`;
    case 'report':
      return html`${answer.isPartial && partialNote(page)}
${questionBody(answer.report)}
<p class="screen">Take it along: ${answer.report.tables.filter(({ table }) => table.rows.length > 0).map(({ name }, i) => html`${i > 0 && ' · '}<a href="/scenarios/${page.name}/what-ifs/${name}.csv?${page.query.toString()}">${name}.csv</a>`)}</p>`;
  }
}

/** That an answer is a part, before any of its figures. */
function partialNote({ query }: ScenarioPage): Markup {
  const whole = new URLSearchParams(query);
  whole.delete('job');
  return html`<p class="partial"><b>Partial answer: it was stopped early.</b> The figures are those of what was done by then. <a class="screen" href="?${String(whole)}">Work out all of it</a></p>`;
}
