import * as z from 'zod';
import { SCENARIO_FORMAT, scenarioSchema } from './scenario.js';

/** The JSON Schema (2020-12) of the scenario format, for editors and other programs. */
export function scenarioJsonSchema(): Record<string, unknown> {
  return {
    title: SCENARIO_FORMAT,
    ...z.toJSONSchema(scenarioSchema, { target: 'draft-2020-12', io: 'input' }),
  };
}
