import { cellText, memberAt, plantEntries } from '../../report/plant-tables/plant-entries.js';
import { plantTables } from '../../report/plant-tables/plant-tables.js';
import { Refusal } from '../api/refusal.js';
import type { ApiContext } from '../api/route.js';
import type { ApiServices } from '../api/services.js';
import { csvResponse } from './csv-response.js';
import { scenarioPage } from './scenario-page.js';

/** A table of the scenario as CSV: the id first, then the members under their paths, as a cell holds them. */
export async function plantCsvRoute(services: ApiServices, context: ApiContext): Promise<Response> {
  const { document, units } = await scenarioPage(services, context, 'plant');
  const file = context.req.param('file') ?? '';
  const table = plantTables(units).find(({ key }) => `${key}.csv` === file);
  if (table === undefined) throw new Refusal('not-found', 'There is no such table.');
  const paths = table.columns.map(({ path }) => path);
  const rows = plantEntries(document, table.key).map((entry, i) => [
    String(entry.id ?? i),
    ...paths.map((path) => cellText(memberAt(entry, path)) ?? ''),
  ]);
  const text = [['id', ...paths], ...rows].map((row) => `${row.map(quoted).join(',')}\r\n`).join('');
  return csvResponse(table.key, text);
}

/** After RFC 4180; a text that a spreadsheet would take for a formula gets an apostrophe before it. */
function quoted(text: string): string {
  const plain = /^[=+@\t\r\n]|^-(?!\d)/.test(text) ? `'${text}` : text;
  return /[",\r\n]/.test(plain) ? `"${plain.replaceAll('"', '""')}"` : plain;
}
