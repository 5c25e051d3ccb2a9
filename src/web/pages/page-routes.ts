import { type Access, permissionOf } from '../access.js';
import { Refusal } from '../api/refusal.js';
import type { ApiContext, Route } from '../api/route.js';
import type { ApiServices } from '../api/services.js';
import { authorizationOf } from '../signed-in.js';
import { isScenarioName } from '../storage/scenario-name.js';
import { assetResponse } from './assets.js';
import { csvRoute } from './csv-route.js';
import { failurePage } from './failure-page.js';
import { listRoute } from './list-route.js';
import { offerCsvRoute, offerRoute, quotesRoute } from './offer-route.js';
import { planRoute } from './plan-route.js';
import { plantCsvRoute } from './plant-csv-route.js';
import { plantRoute } from './plant-route.js';
import { SECTIONS } from './shell.js';
import { signIn, signInPage } from './sign-in-route.js';
import { standaloneRoute, workbookRoute } from './take-along-routes.js';
import { whatIfsRoute } from './what-ifs-route.js';
import { whyRoute } from './why-route.js';

type Handler = Route['handle'];

/** The pages for people, and what they load. They only ask what the API is asked too. */
export function pageRoutes(services: ApiServices, access: Access): Route[] {
  const pages = [
    page('listPage', '/', () => listRoute(services)),
    page('openPage', '/open', openPage),
    page('planPage', '/scenarios/{name}/plan', (context) => planRoute(services, context)),
    page('workbook', '/scenarios/{name}/plan.xlsx', (context) => workbookRoute(services, context)),
    page('standalone', '/scenarios/{name}/plan.html', (context) => standaloneRoute(services, context)),
    page('whyPage', '/scenarios/{name}/why', (context) => whyRoute(services, context)),
    page('offerPage', '/scenarios/{name}/offer', (context) => offerRoute(services, context)),
    page('quotesPage', '/scenarios/{name}/offer/quotes', (context) => quotesRoute(services, context)),
    page('offerTable', '/scenarios/{name}/offer/{file}', (context) => offerCsvRoute(services, context)),
    page('plantPage', '/scenarios/{name}/plant', (context) => plantRoute(services, context)),
    page('plantTable', '/scenarios/{name}/plant/{file}', (context) => plantCsvRoute(services, context)),
    page('whatIfsPage', '/scenarios/{name}/what-ifs', (context) => whatIfsRoute(services, context)),
    page('whatIfTable', '/scenarios/{name}/what-ifs/{file}', (context) => csvRoute(services, context)),
  ];
  const open = [
    page('signInPage', '/sign-in', () => signInPage()),
    page('signIn', '/sign-in', (context) => signIn(access, context), 'POST'),
    page('asset', '/assets/{file}', (context) => assetResponse(context.req.param('file') ?? '')),
  ];
  return [...pages.map((each) => signedIn(each, access)), ...open];
}

/** A page for those who are signed in; others are led to where they can. */
function signedIn(route: Route, access: Access): Route {
  return {
    ...route,
    handle: (context) => {
      const permission = permissionOf(access, authorizationOf(context));
      if (permission === 'none')
        return new Response(null, { status: 303, headers: { Location: '/sign-in' } });
      // The same client as before the API, whose jobs the pages show.
      if (access.kind === 'tokens') context.set('client', `${permission} ${context.get('client')}`);
      return route.handle(context);
    },
  };
}

function page(id: string, path: string, handle: Handler, method: Route['method'] = 'GET'): Route {
  return {
    id,
    method,
    path,
    tag: 'Pages',
    summary: id,
    access: 'anyone',
    responses: {},
    refusals: [],
    handle: async (context) => {
      try {
        return await handle(context);
      } catch (error) {
        if (error instanceof Refusal) return failurePage(error);
        throw error;
      }
    },
  };
}

/** Leads to the page that the form in the head of every page asks for. */
function openPage(context: ApiContext): Response {
  const { scenario = '', page: section = 'plan' } = context.req.query();
  const isKnown = SECTIONS.some(([path]) => path === section);
  if (!isScenarioName(scenario) || !isKnown) throw new Refusal('not-found', 'There is no such page.');
  return new Response(null, { status: 303, headers: { Location: `/scenarios/${scenario}/${section}` } });
}
