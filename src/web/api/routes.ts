import { checkRoute } from './check-route.js';
import { jobRoutes } from './job-routes.js';
import { offerRoutes } from './offer-routes.js';
import { questionRoutes } from './question-routes.js';
import type { Route } from './route.js';
import { scenarioRoutes } from './scenario-routes.js';
import { schemaRoutes } from './schema-routes.js';
import { serviceRoutes } from './service-routes.js';
import type { ApiServices } from './services.js';

/** All routes of the API. */
export function apiRoutes(services: ApiServices): Route[] {
  const routes = [
    ...scenarioRoutes(services),
    ...offerRoutes(services),
    ...questionRoutes(services),
    checkRoute(services),
    ...jobRoutes(services),
    ...schemaRoutes(),
  ];
  return [...routes, ...serviceRoutes(services, routes)];
}
