import { html, type Markup } from '../../report/html/markup.js';
import { printable } from '../../report/printable.js';
import type { ApiServices } from '../api/services.js';
import type { ScenarioListing } from '../storage/stored-scenario.js';
import { markupResponse } from './markup-response.js';
import { SECTIONS, shell } from './shell.js';

/** All stored scenarios, with the way to their pages. */
export async function listRoute({ library }: ApiServices): Promise<Response> {
  const listings = await library.list();
  const body = html`<h1>Scenarios</h1>
<p>How far to reduce each tonne of scrap tire this month: shred, chip, wire-free rubber, granulate, powder. Each scenario is one plant with its feeds, machines, crews, buyers and contracts.</p>
${listings.length === 0 ? html`<p>None is stored yet. Put a scenario into the server's folder, or send one to the API.</p>` : table(listings)}`;
  return markupResponse(shell({ title: 'cutpoint: scenarios' }, body));
}

function table(listings: readonly ScenarioListing[]): Markup {
  return html`<div class="scroll" tabindex="0" role="region" aria-label="Scenarios"><table class="list">
<caption>Stored scenarios</caption>
<thead><tr><th scope="col">scenario</th><th scope="col">stored as</th><th scope="col">pages</th></tr></thead>
<tbody>${listings.map(row)}</tbody></table></div>`;
}

function row(listing: ScenarioListing): Markup {
  const { name } = listing;
  if (listing.state === 'broken') {
    return html`<tr><th scope="row">${name}</th><td>${name}.json</td><td><span class="problem">Broken: ${listing.problems.length} ${listing.problems.length === 1 ? 'problem' : 'problems'}.</span> ${listing.problems.slice(0, 3).map(({ message, pointer }) => html`<br>${message} <span class="unit">${pointer}</span>`)}</td></tr>`;
  }
  const title = printable(listing.title);
  return html`<tr><th scope="row"><a href="/scenarios/${name}/plan">${title}</a></th><td>${name}.json</td><td>${SECTIONS.map(
    ([path, label], i) =>
      html`${i > 0 && ' · '}<a href="/scenarios/${name}/${path}">${label}<span class="skip"> of ${title}</span></a>`,
  )}</td></tr>`;
}
