import { csvText } from '../../report/csv.js';
import { Refusal } from '../api/refusal.js';
import type { ApiContext } from '../api/route.js';
import type { ApiServices } from '../api/services.js';
import { ask } from './ask.js';
import { scenarioPage } from './scenario-page.js';
import { WHAT_IFS } from './what-if-forms.js';
import { whatIfQuestion } from './what-if-question.js';
import { whatIfReport } from './what-if-report.js';

/** A table of a what-if as CSV: the question is in the address, as on the page. */
export async function csvRoute(services: ApiServices, context: ApiContext): Promise<Response> {
  const page = await scenarioPage(services, context, 'what-ifs');
  const what = WHAT_IFS.find(([name]) => name === page.query.get('what'))?.[0] ?? 'sweep';
  const asking = await whatIfQuestion(services, page, what);
  const file = context.req.param('file') ?? '';
  const answer = asking.kind === 'question' ? await ask(services, asking.question) : undefined;
  const report =
    asking.kind === 'question' && answer?.kind === 'document'
      ? whatIfReport(asking.question, answer.document)
      : undefined;
  const found = report?.tables.find(({ name }) => `${name}.csv` === file);
  if (report === undefined || found === undefined) throw new Refusal('not-found', 'There is no such table.');
  return new Response(csvText(found.table, report.units), {
    headers: {
      'Content-Type': 'text/csv; charset=utf-8',
      'Content-Disposition': `attachment; filename="${found.name}.csv"`,
      'Cache-Control': 'no-store',
    },
  });
}
