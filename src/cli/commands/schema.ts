import { explanationJsonSchema } from '../../report/explain/explain-schema.js';
import { sweepJsonSchema, sweepMapJsonSchema } from '../../report/finance/sweep-schema.js';
import { offerJsonSchema } from '../../report/offer-schema.js';
import { planJsonSchema } from '../../report/plan-schema.js';
import { scenarioJsonSchema } from '../../scenario/json-schema.js';
import { readArguments, readChoice } from '../arguments.js';
import type { Command } from '../command.js';
import { EXIT } from '../exit-code.js';

const HELP = `Usage: cutpoint schema [scenario|plan|explanation|offer|sweep|sweep-map]

The JSON Schema (2020-12) of the scenario format, for editors, or of the document that
plan --json, explain --json, offer --json or sweep --json prints.
`;

const SCHEMAS = {
  scenario: scenarioJsonSchema,
  plan: planJsonSchema,
  explanation: explanationJsonSchema,
  offer: offerJsonSchema,
  sweep: sweepJsonSchema,
  'sweep-map': sweepMapJsonSchema,
} as const;

export const schemaCommand: Command = {
  help: HELP,
  async run(args, terminal) {
    const { positionals } = readArguments(args, {}, { least: 0, most: 1, called: 'the name of a document' });
    const which = readChoice('The schema', positionals[0] ?? 'scenario', [
      'scenario',
      'plan',
      'explanation',
      'offer',
      'sweep',
      'sweep-map',
    ]);
    terminal.out(`${JSON.stringify(SCHEMAS[which](), undefined, 2)}\n`);
    return EXIT.answered;
  },
};
