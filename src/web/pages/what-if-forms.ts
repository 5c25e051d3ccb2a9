import { html, type Markup } from '../../report/html/markup.js';
import { printable } from '../../report/printable.js';
import { numberOptions, type ScenarioPage } from './scenario-page.js';

export const WHAT_IFS = [
  ['sweep', 'One number'],
  ['fee', 'Tipping fee'],
  ['tornado', 'Which numbers matter'],
  ['risk', 'Risk'],
  ['compare', 'Two scenarios'],
] as const;

export type WhatIf = (typeof WHAT_IFS)[number][0];

/** The ways to ask, and the form of the one that is chosen. */
export function whatIfForm(page: ScenarioPage, chosen: WhatIf): Markup {
  return html`<nav aria-label="What-ifs" class="tabs screen"><ul>${WHAT_IFS.map(
    ([what, label]) =>
      html`<li><a href="?what=${what}"${what === chosen && html` aria-current="true"`}>${label}</a></li>`,
  )}</ul></nav>
<form method="get" class="bar screen" data-redraw${chosen === 'risk' && html`="job" data-question="risk" data-scenario="${page.name}"`}>
<input type="hidden" name="what" value="${chosen}">${FORMS[chosen](page)}<button>${BUTTONS[chosen]}</button></form>`;
}

const BUTTONS: Readonly<Record<WhatIf, string>> = {
  sweep: 'Draw the curve',
  fee: 'Find the best fee',
  tornado: 'Rank them',
  risk: 'Draw',
  compare: 'Compare',
};

const FORMS: Readonly<Record<WhatIf, (page: ScenarioPage) => Markup>> = {
  sweep: ({ numbers, query }) => html`
<div class="field"><label for="number">Number</label><select id="number" name="number"><option value="">choose one …</option>${numberOptions(numbers, query.get('number') ?? undefined)}</select></div>
${figure('from', 'From', query.get('from') ?? '', html`<span data-unit></span>`)}
${figure('to', 'To', query.get('to') ?? '', html`<span data-unit></span>`)}`,
  fee: ({ document, numbers, query }) => {
    const feeds = Array.isArray(document.feeds) ? document.feeds : [];
    return html`<fieldset><legend>How far each tipping fee may go; a fee that is left empty stays as it is</legend>${feeds.map(
      ({ id, name = id }) => {
        const fee = numbers.find(({ pointer }) => pointer === `/feeds/${id}/tippingFee`);
        const now = fee === undefined ? '' : `${fee.unit}; now ${fee.value}`;
        return html`<div class="bar">${figure(`low-${id}`, `${printable(String(name))}, from`, query.get(`low-${id}`) ?? '', '')}${figure(`high-${id}`, 'to', query.get(`high-${id}`) ?? '', now)}</div>`;
      },
    )}</fieldset>`;
  },
  tornado: ({ query }) =>
    html`${figure('percent', 'Each number up and down by', query.get('percent') ?? '10', '%')}`,
  risk: ({ query }) => html`
${figure('draws', 'Draws', query.get('draws') ?? '200', '')}
${figure('seed', 'Seed', query.get('seed') ?? '1', 'the same seed, the same draws')}
${figure('level', 'Name a level below which it hurts', query.get('level') ?? '', 'present value; may stay empty')}`,
  compare: ({ shell, query, name }) => html`
<div class="field"><label for="other">With</label><select id="other" name="other">${shell.others
    .filter((other) => other.name !== name)
    .map(
      (other) =>
        html`<option value="${other.name}"${other.name === query.get('other') && html` selected`}>${printable(other.title)}</option>`,
    )}</select></div>`,
};

function figure(name: string, label: string, value: string, unit: Markup | string): Markup {
  return html`<div class="field"><label for="q-${name}">${label}</label><span class="row"><input id="q-${name}" name="${name}" class="number" inputmode="decimal" autocomplete="off" value="${value}"> <span class="unit">${unit}</span></span></div>`;
}
