import type { ExplanationDocument } from '../../report/explain/explain-document.js';
import { explainedWays, explanationTables } from '../../report/html/explanation-page.js';
import { ladderFigure } from '../../report/html/ladder-figure.js';
import { html, type Markup } from '../../report/html/markup.js';
import { printable } from '../../report/printable.js';
import type { ApiContext } from '../api/route.js';
import type { ApiServices } from '../api/services.js';
import { ask, type PageServices } from './ask.js';
import { problemsNote } from './failure-page.js';
import { PAGE_GAP, planOf } from './plan-route.js';
import { scenarioPage } from './scenario-page.js';
import { streamedPage } from './streamed-page.js';
import { trialOf } from './trial.js';

/** Sentences of an explanation that stand beside those of the plan; the others are a click away. */
const SHOWN = 3;

/** Why the plan is as it is, for the same scenario and numbers as the page of the plan. */
export async function whyRoute(services: ApiServices, context: ApiContext): Promise<Response> {
  const page = await scenarioPage(services, context, 'plan');
  const trial = trialOf(page.document, page.numbers, page.query);
  const content = async (asking: PageServices): Promise<Markup> => {
    const [plan, answer] = await Promise.all([
      planOf(asking, trial.document),
      ask(asking, { question: 'explain', scenario: trial.document, options: { gap: PAGE_GAP, shifts: 0 } }),
    ]);
    if (answer.kind === 'problems') return problemsNote(answer.detail, answer.problems);
    const document = answer.document as ExplanationDocument;
    const list = (lines: readonly string[]) =>
      lines.length > 0 && html`<ul class="sentences">${lines.map((line) => html`<li>${line}</li>`)}</ul>`;
    if (document.status !== 'explained' || !('months' in plan))
      return html`<h1>No plan, and why</h1><div data-part="why">${list(document.sentences)}</div>`;
    const found = plan.months.findIndex((each) => each.month === page.query.get('month'));
    const month = plan.months.length === 1 ? 0 : found < 0 ? undefined : found;
    return html`<h1>${printable(page.title)}: why the plan is as it is</h1>
<div data-part="why">${list(document.sentences.slice(0, SHOWN))}
<details><summary>More: what binds, what was left alone, how firm it is</summary>${list(document.sentences.slice(SHOWN))}${explanationTables(document)}</details></div>
<div data-part="ladder">${ladderFigure(plan, month, explainedWays(plan, document, month))}</div>`;
  };
  return streamedPage(services, { title: `${page.title}: why`, scenario: page.shell }, content);
}
