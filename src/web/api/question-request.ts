import * as z from 'zod';
import type { Order } from '../../host/order.js';
import type { Question } from '../../host/questions/question.js';
import { requireModest } from './modest.js';
import { Refusal } from './refusal.js';
import { requestDocument } from './request-document.js';
import { requestShape } from './request-shape.js';
import type { ApiContext } from './route.js';
import { isObject, scenarioDocument, scenarioName } from './schema.js';
import type { ApiServices } from './services.js';
import { storedScenarioOf } from './stored-scenario-of.js';

/** What every question is asked of. */
export const SUBJECT = {
  scenario: z
    .union([scenarioName, scenarioDocument])
    .describe('The name of a stored scenario, or a scenario itself.'),
  patch: z
    .union([z.array(z.custom<object>(isObject, 'Write an operation')).max(1000), scenarioDocument])
    .optional()
    .describe(
      'What is different: a JSON Patch (RFC 6902), in which ids may stand for list positions, or a merge patch (RFC 7396).',
    ),
};

const ENGINES = z
  .enum(['auto', 'javascript-lp-solver', 'highs'])
  .optional()
  .describe('Which solver to ask. auto if absent.');

const secondsSchema = z
  .number()
  .gt(0)
  .optional()
  .describe("Seconds that the answer may take; not more than the server's limit, which holds if absent.");

/** The shape of a question's request. */
export function requestSchemaOf({ name, options, subjects = [] }: Question): z.ZodObject {
  const others = Object.fromEntries(subjects.map((subject) => [subject, z.strictObject(SUBJECT)]));
  return z
    .strictObject({ ...SUBJECT, ...options.shape, ...others, engine: ENGINES, seconds: secondsSchema })
    .meta({ id: `${name}Request` });
}

/**
 * The order that a request places.
 *
 * @throws Refusal where the request cannot be read, or names what is not there
 */
export async function orderOf(
  context: ApiContext,
  services: ApiServices,
  question: Question,
  schema: z.ZodObject,
): Promise<Order> {
  const document = await requestDocument(context, services.runner);
  const { scenario, patch, engine, seconds, ...options } = requestShape(
    schema,
    document,
  ) as unknown as Subject;
  for (const [name, option] of Object.entries(options))
    requireModest(name, option, services.limits.listEntries);
  const { solveSeconds } = services.limits;
  if (seconds !== undefined && seconds > solveSeconds) {
    throw new Refusal('invalid-request', `This server gives an answer ${solveSeconds} seconds at most.`);
  }
  return {
    question: question.name,
    ...(await subjectOf(services, { scenario, patch })),
    options: { ...options, ...(await othersOf(services, question, options)) },
    engine: engine ?? 'auto',
    seconds: seconds ?? solveSeconds,
  };
}

interface Subject {
  readonly scenario: string | Readonly<Record<string, unknown>>;
  readonly patch?: unknown;
  readonly engine?: Order['engine'];
  readonly seconds?: number;
}

/** The options that are scenarios themselves, each read where it is stored. */
async function othersOf(
  services: ApiServices,
  { subjects = [] }: Question,
  options: Readonly<Record<string, unknown>>,
): Promise<Record<string, unknown>> {
  const others: Record<string, unknown> = {};
  for (const name of subjects) others[name] = await subjectOf(services, options[name] as Subject);
  return others;
}

/** The scenario itself, read where it is stored, and its patch. @throws Refusal */
export async function subjectOf(
  services: ApiServices,
  { scenario, patch }: Pick<Subject, 'scenario' | 'patch'>,
): Promise<Pick<Order, 'scenario' | 'patch'>> {
  requireFewCopies(patch);
  const document = typeof scenario === 'string' ? await storedDocument(services, scenario) : scenario;
  requireModest('scenario', document, services.limits.listEntries);
  requireModest('patch', patch, services.limits.listEntries);
  return { scenario: document, ...(patch === undefined ? {} : { patch }) };
}

async function storedDocument(services: ApiServices, name: string): Promise<unknown> {
  return services.library.documentOf(await storedScenarioOf(services, name));
}

/** Copies of copies grow without end. */
const MOST_COPIES = 4;

function requireFewCopies(patch: unknown): void {
  if (!Array.isArray(patch)) return;
  const copies = patch.filter((operation) => isObject(operation) && operation.op === 'copy');
  if (copies.length <= MOST_COPIES) return;
  throw new Refusal('invalid-request', `A patch may hold ${MOST_COPIES} copy operations at most.`);
}
