import type { QuestionReport } from '../finance/question-report.js';
import { figureTable } from './figure-table.js';
import { html, type Markup, ready } from './markup.js';

/** The answer to a question as the body of a page: what it comes to, the pictures, the tables. */
export function questionBody({ headline, charts, sections, units }: QuestionReport): Markup {
  const [first, ...rest] = headline;
  return html`<div class="answer"><p class="lead">${first}</p>${rest.map((line) => html`<p>${line}</p>`)}</div>
<div class="pair">${charts.map(({ svg, name }) => chartFigure(svg, name))}</div>
${sections.map((section) => figureTable(section, units))}`;
}

/** A chart within a page, which gives it its look. */
export function chartFigure(svg: string, name: string): Markup {
  const bare = svg.replace(/^<\?xml[^>]*>\s*/, '').replace(/<style>[\s\S]*?<\/style>/, '');
  const [, title = ''] = /<title>([\s\S]*?)<\/title>/.exec(bare) ?? [];
  return html`<figure><figcaption class="narrow-only">${ready(title)}</figcaption><div class="scroll chart" tabindex="0" role="region" aria-label="Chart: ${name}">${ready(bare)}</div></figure>`;
}
