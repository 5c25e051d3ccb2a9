import * as z from 'zod';
import { jsonResponse } from './json-response.js';
import { SUBJECT, subjectOf } from './question-request.js';
import { requestDocument } from './request-document.js';
import { requestShape } from './request-shape.js';
import type { Route } from './route.js';
import { problemSchema, warningSchema } from './schema.js';
import type { ApiServices } from './services.js';

const request = z.strictObject(SUBJECT).meta({ id: 'checkRequest' });

const checkSchema = z
  .strictObject({ problems: z.array(problemSchema), warnings: z.array(warningSchema) })
  .describe('No problems: the scenario may be planned with.')
  .meta({ id: 'checkAnswer' });

/** Everything that is wrong with a scenario: an answer, whatever it says. */
export function checkRoute(services: ApiServices): Route {
  return {
    id: 'askCheck',
    method: 'POST',
    path: '/check',
    tag: 'Questions',
    summary: 'Everything that is wrong with a scenario',
    access: 'read',
    body: { schema: request, example: { scenario: 'one-month', patch: { title: 7 } } },
    responses: {
      200: { description: 'What is wrong, and what its owner should know.', schema: checkSchema },
    },
    refusals: ['malformed', 'not-found', 'broken-scenario', 'invalid-request'],
    handle: async (context) => {
      const asked = requestShape(request, await requestDocument(context, services.runner));
      const { scenario, patch } = await subjectOf(services, asked);
      const { problems, warnings } = await services.runner.check({ document: scenario, patch });
      return jsonResponse({ problems, warnings });
    },
  };
}
