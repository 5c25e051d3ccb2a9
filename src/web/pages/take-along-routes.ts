import { standalonePlan } from '../../report/html/standalone.js';
import type { PlannedDocument } from '../../report/plan-document.js';
import { planWorkbook } from '../../report/xlsx/plan-workbook.js';
import { Refusal } from '../api/refusal.js';
import type { ApiContext } from '../api/route.js';
import type { ApiServices } from '../api/services.js';
import { planOf } from './plan-route.js';
import { scenarioPage } from './scenario-page.js';
import { trialOf } from './trial.js';

const WORKBOOK = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet';

/** The plan that the page of the same address shows, as a workbook. */
export async function workbookRoute(services: ApiServices, context: ApiContext): Promise<Response> {
  const { plan, month, name } = await shownPlan(services, context);
  const bytes = await planWorkbook(plan, month);
  return attachment(new Uint8Array(bytes), WORKBOOK, `${name}.xlsx`);
}

/** The same as one page with nothing to load. */
export async function standaloneRoute(services: ApiServices, context: ApiContext): Promise<Response> {
  const { plan, month, name } = await shownPlan(services, context);
  return attachment(standalonePlan(plan, month), 'text/html; charset=utf-8', `${name}.html`);
}

async function shownPlan(
  services: ApiServices,
  context: ApiContext,
): Promise<{ plan: PlannedDocument; month: number | undefined; name: string }> {
  const { name, document, numbers, query } = await scenarioPage(services, context, 'plan');
  const plan = await planOf(services, trialOf(document, numbers, query).document);
  if (!('months' in plan)) throw new Refusal('infeasible', 'There is no plan to take along.');
  const month = plan.months.findIndex((each) => each.month === query.get('month'));
  return { plan, month: month < 0 ? undefined : month, name };
}

function attachment(body: string | Uint8Array<ArrayBuffer>, contentType: string, file: string): Response {
  return new Response(body, {
    headers: {
      'Content-Type': contentType,
      'Content-Disposition': `attachment; filename="${file}"`,
      'Cache-Control': 'no-store',
    },
  });
}
