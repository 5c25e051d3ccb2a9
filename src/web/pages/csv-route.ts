import { csvText } from '../../report/csv.js';
import { Refusal } from '../api/refusal.js';
import type { ApiContext } from '../api/route.js';
import type { ApiServices } from '../api/services.js';
import { csvResponse } from './csv-response.js';
import { scenarioPage } from './scenario-page.js';
import { whatIfAnswer } from './what-if-answer.js';

/** A table of a what-if as CSV: the question is in the address, as on the page. */
export async function csvRoute(services: ApiServices, context: ApiContext): Promise<Response> {
  const page = await scenarioPage(services, context, 'what-ifs');
  const file = context.req.param('file') ?? '';
  const answer = await whatIfAnswer(services, page, context.get('client'));
  const report = answer.kind === 'report' ? answer.report : undefined;
  const found = report?.tables.find(({ name }) => `${name}.csv` === file);
  if (report === undefined || found === undefined) throw new Refusal('not-found', 'There is no such table.');
  return csvResponse(found.name, csvText(found.table, report.units));
}
