import type { LimitKey } from '../../analysis/limits/plan-limit.js';
import type { WayOn } from '../charts/ladder-chart.js';
import type { DocumentRent, ExplainedDocument } from '../explain/explain-document.js';
import { changesWords, numberWords } from '../explain/firmness-words.js';
import { limitWords } from '../explain/limit-words.js';
import { ABSENT, formatFigure } from '../figure.js';
import type { PlannedDocument } from '../plan-document.js';
import { html, type Markup } from './markup.js';
import { type WaysOn, waysOn } from './ways-on.js';

/** Rows of each table on a page; the JSON document has them all. */
const ROWS = 15;

type Cell = string | number | undefined;

/** Why the plan is as it is: what binds, what was left alone and what it would take, how firm it is. */
export function explanationTables(document: ExplainedDocument): Markup {
  const { names, units, firmness, rents, wouldTake } = document;
  const perMass = `${units.currency}/${units.mass}`;
  const open = wouldTake
    .filter(({ rise }) => rise !== undefined && rise > 0)
    .sort((a, b) => (a.rise ?? 0) - (b.rise ?? 0));
  return html`
${plainTable(
  'What binds, and what a unit more or less of it is worth',
  ['limit', 'month', 'by', '#last unit', '#one more', '#holds from', '#limit now', '#holds to'],
  rents
    .slice(0, ROWS)
    .map((rent) => [
      limitWords(limitOf(rent), names),
      rent.month,
      rent.unit,
      money(rent.oneLess),
      money(rent.oneMore),
      mass(rent.holdsFrom),
      mass(rent.amount),
      mass(rent.holdsTo),
    ]),
  rents.length,
)}
${plainTable(
  `What was left alone, and at which price it would come in (${perMass})`,
  ['left alone', 'month', '#price now', '#comes in at', '#loss if forced in'],
  open
    .slice(0, ROWS)
    .map(({ what, price, comesInAt, forced }) => [
      takenWords(what, names),
      what.month,
      money(price),
      money(comesInAt),
      money(forced?.loss),
    ]),
  open.length,
)}
${plainTable(
  'How firm the plan is: how far a price may move before the plan changes',
  ['price or cost', 'unit', '#now', '#may fall by', 'then', '#may rise by', 'then'],
  firmness
    .slice(0, ROWS)
    .map(({ number, unit, now, less, more }) => [
      numberWords(number, names),
      unit,
      money(now[0]),
      money(less.by),
      changesWords(less.changes, names, units),
      money(more.by),
      changesWords(more.changes, names, units),
    ]),
  firmness.length,
)}`;
}

/** The ways on of each rung with what going on would bring, in one month. */
export function explainedWays(
  plan: PlannedDocument,
  explained: ExplainedDocument,
  month: number | undefined,
): WaysOn {
  const ways = waysOn(plan, month);
  if (month === undefined) return ways;
  const label = plan.months[month].month;
  const gains = new Map<string, number>();
  for (const { step, month: when, gain, machine } of explained.steps) {
    if (when !== label) continue;
    const name = plan.names.steps[step];
    gains.set(name, Math.max(gains.get(name) ?? Number.NEGATIVE_INFINITY, gain + machine));
  }
  const rents = new Map<string, number>();
  for (const { limit, month: when, oneMore } of explained.rents) {
    if (limit.kind !== 'machineHours' || when !== label || oneMore === undefined) continue;
    const name = plan.names.machines[limit.machine];
    rents.set(name, Math.max(rents.get(name) ?? 0, oneMore));
  }
  const withGain = (way: WayOn): WayOn => {
    const [gain, rent] = [gains.get(way.step), rents.get(way.machine)];
    return { ...way, ...(gain === undefined ? {} : { gain }), ...(rent === undefined ? {} : { rent }) };
  };
  return new Map([...ways].map(([material, list]) => [material, list.map(withGain)]));
}

function limitOf(rent: DocumentRent): LimitKey {
  const { limit, window } = rent;
  return { ...limit, ...(window === undefined ? {} : { window }), month: 0 } as LimitKey;
}

function takenWords(
  what: ExplainedDocument['wouldTake'][number]['what'],
  names: ExplainedDocument['names'],
): string {
  switch (what.kind) {
    case 'outlet':
      return `${names.outlets[what.outlet]}${what.tier === 0 ? '' : `, price step ${what.tier + 1}`}`;
    case 'feed':
      return `more from ${names.feeds[what.feed]}`;
    case 'step':
      return names.steps[what.step];
    case 'contract':
      return `${names.materials[what.material]} to ${names.contracts[what.contract]}`;
  }
}

/** A table of texts; heads that start with # stand to the right. */
function plainTable(
  title: string,
  heads: readonly string[],
  rows: readonly (readonly Cell[])[],
  all: number,
): Markup | undefined {
  if (rows.length === 0) return undefined;
  const side = (i: number) => (heads[i].startsWith('#') ? html` class="figure"` : undefined);
  return html`<div class="scroll" tabindex="0" role="region" aria-label="${title}"><table><caption>${title}</caption>
<thead><tr>${heads.map((head, i) => html`<th scope="col"${side(i)}>${head.replace('#', '')}</th>`)}</tr></thead>
<tbody>${rows.map((row) => html`<tr>${row.map((cell, i) => (i === 0 ? html`<th scope="row">${cell}</th>` : html`<td${side(i)}>${cell}</td>`))}</tr>`)}</tbody></table></div>
${all > rows.length && html`<p class="note">${all - rows.length} more in the answer of the API.</p>`}`;
}

function money(value: number | undefined): string {
  return value === undefined ? ABSENT : formatFigure(value, 2);
}

function mass(value: number | undefined): string {
  return value === undefined ? ABSENT : formatFigure(value, 1);
}
