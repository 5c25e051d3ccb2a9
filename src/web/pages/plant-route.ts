import type { Plant } from '../../plant/plant.js';
import { readPlantDocument } from '../../plant/read-plant.js';
import { minorDigits } from '../../report/currency.js';
import { flowDrawing } from '../../report/flow-drawing.js';
import { html, type Markup, ready } from '../../report/html/markup.js';
import { unitsNote } from '../../report/html/standalone.js';
import { cellText, memberAt, plantEntries, plantPointer } from '../../report/plant-tables/plant-entries.js';
import type { PlantColumn, PlantTable } from '../../report/plant-tables/plant-table.js';
import { plantTables } from '../../report/plant-tables/plant-tables.js';
import { printable } from '../../report/printable.js';
import type { ApiContext } from '../api/route.js';
import type { ApiServices } from '../api/services.js';
import { problemsNote } from './failure-page.js';
import { markupResponse } from './markup-response.js';
import { PAGE_GAP } from './plan-route.js';
import { type ScenarioPage, scenarioPage } from './scenario-page.js';
import { shell } from './shell.js';

type Entry = Readonly<Record<string, unknown>>;

/** The scenario as tables, to be read and, with scripts, to be edited. */
export async function plantRoute(services: ApiServices, context: ApiContext): Promise<Response> {
  const page = await scenarioPage(services, context, 'plant');
  const { title, name, etag, units } = page;
  const reading = readPlantDocument(page.document);
  const body = reading.ok
    ? content(page, reading.plant)
    : problemsNote('The scenario has problems.', reading.problems);
  const main = html`<h1>${printable(title)}: plant</h1>
<div data-plant="${name}" data-etag="${etag}" data-gap="${PAGE_GAP}" data-currency="${units.currency}" data-digits="${minorDigits(units.currency)}">${body}</div>
<p class="note">${unitsNote(units)} One value for each month is written with semicolons: 210; 215; 220. In italics: computed, the first month's. A coloured edge marks what is not saved.</p>`;
  return markupResponse(shell({ title: `${title}: plant`, scenario: page.shell, scripts: ['plant'] }, main));
}

function content(page: ScenarioPage, plant: Plant): Markup {
  const { units, name } = page;
  return html`<p class="note" data-without-scripts>Without scripts these tables can be read, not edited.</p>
<p class="screen">Take it along: <a href="/scenarios/${name}" download="${name}.json">scenario (.json)</a> <label class="button quiet">Bring one in (.json) <input type="file" class="skip" accept=".json,application/json" data-import></label></p>
${plantTables(units).map((table) => tableSection(page, plant, table))}
<details><summary>Flow of materials, drawing</summary><div class="scroll" tabindex="0" role="region" aria-label="Flow of materials">${ready(flowDrawing(plant))}</div></details>
<div class="state screen" data-state hidden><p role="status" data-said></p><div data-problems></div>
<p class="bar"><button type="button" data-do="save">Save</button><button type="button" class="quiet" data-do="undo">Undo</button><button type="button" class="quiet" data-do="theirs" hidden>Load theirs, lose mine</button><button type="button" class="quiet" data-do="mine" hidden>Save mine over theirs</button></p></div>`;
}

function tableSection(page: ScenarioPage, plant: Plant, table: PlantTable): Markup | undefined {
  const { key, title, columns, computed } = table;
  const entries = plantEntries(page.document, key);
  if (entries.length === 0) return undefined;
  const head = ({ head: text, unit, kind = 'figure' }: { head: string; unit: string; kind?: string }) =>
    html`<th scope="col"${kind === 'figure' && html` class="figure"`}>${text}${unit !== '' && html` <span class="unit">${unit}</span>`}</th>`;
  return html`<section aria-labelledby="t-${key}"><h2 id="t-${key}">${title}</h2>
<div class="scroll" tabindex="0" role="region" aria-label="${title}"><table class="grid" data-list="${plantPointer(key)}">
<thead><tr>${columns.map(head)}${computed.map((column) => head({ ...column }))}<th scope="col" class="screen">row</th></tr></thead>
${entries.map((entry, i) => entryRows(page, plant, table, entry, i))}
</table></div>
<p class="note screen"><a href="/scenarios/${page.name}/plant/${key}.csv">${key}.csv</a> <label class="button quiet">Bring in a CSV <input type="file" class="skip" accept=".csv,text/csv" data-csv="${plantPointer(key)}"></label></p></section>`;
}

function entryRows(
  page: ScenarioPage,
  plant: Plant,
  { key, columns, computed }: PlantTable,
  entry: Entry,
  i: number,
): Markup {
  const { id = i, name = id } = entry;
  const pointer = `${plantPointer(key)}/${String(id)}`;
  const others = page.numbers.filter(
    (number) =>
      number.pointer.startsWith(`${pointer}/`) &&
      !columns.some(({ path }) => `${pointer}/${path}` === number.pointer),
  );
  const { length } = columns;
  return html`<tbody data-entry="${pointer}"><tr>${columns.map((column, at) => {
    const cell = cellInput(column, `${pointer}/${column.path}`, memberAt(entry, column.path), String(name));
    return at === 0 ? html`<th scope="row">${cell}</th>` : html`<td>${cell}</td>`;
  })}${computed.map(({ of }) => html`<td class="computed">${of(plant, String(id))}</td>`)}
<td class="screen"><button type="button" class="quiet" data-do="copy" aria-label="Copy ${String(name)}">Copy</button> <button type="button" class="quiet" data-do="remove" aria-label="Remove ${String(name)}">Remove</button></td></tr>
${
  others.length > 0 &&
  html`<tr class="leaves"><td colspan="${length + computed.length + 1}"><details><summary>${others.length} more figures of ${String(name)}</summary><div class="fields">${others.map(
    ({ pointer: own, name: said, unit }) => {
      const label = said.slice(String(name).length + 2);
      const value = memberAt(entry, relative(entry, own.slice(pointer.length + 1)));
      return html`<label>${label}${unit !== '' && ` (${unit})`} <input class="figure" data-pointer="${own}" data-kind="figure" value="${cellText(value) ?? ''}" autocomplete="off"></label>`;
    },
  )}</div></details></td></tr>`
}</tbody>`;
}

/** A path in which ids of lists within an entry stand as positions. */
function relative(entry: Entry, path: string): string {
  let at: unknown = entry;
  return path
    .split('/')
    .map((key) => {
      const position = Array.isArray(at) ? at.findIndex((each) => (each as Entry)?.id === key) : -1;
      const own = position < 0 ? key : String(position);
      at = (at as Record<string, unknown> | undefined)?.[own];
      return own;
    })
    .join('/');
}

function cellInput(
  { kind, head, unit, choices = [] }: PlantColumn,
  pointer: string,
  value: unknown,
  name: string,
): Markup {
  const label = `${head} of ${name}${unit === '' ? '' : `, ${unit}`}`;
  const text = cellText(value);
  if (text === undefined) return html`<span class="note">see below</span>`;
  if (kind === 'choice') {
    return html`<select data-pointer="${pointer}" data-kind="text" aria-label="${label}">${choices.map((choice) => html`<option${choice === text && html` selected`}>${choice}</option>`)}</select>`;
  }
  const look = kind === 'figure' ? 'figure' : head === 'buyer' || pointer.endsWith('/name') ? 'wide' : '';
  return html`<input class="${look}" data-pointer="${pointer}" data-kind="${kind}" aria-label="${label}" value="${text}" autocomplete="off">`;
}
