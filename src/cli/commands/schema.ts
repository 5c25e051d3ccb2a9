import { explanationJsonSchema } from '../../report/explain/explain-schema.js';
import { FINANCE_JSON_SCHEMAS } from '../../report/finance/json-schemas.js';
import { offerJsonSchema } from '../../report/offer-schema.js';
import { offerSetsJsonSchema } from '../../report/offer-sets-schema.js';
import { planJsonSchema } from '../../report/plan-schema.js';
import { scenarioJsonSchema } from '../../scenario/json-schema.js';
import { readArguments, readChoice } from '../arguments.js';
import type { Command } from '../command.js';
import { EXIT } from '../exit-code.js';

const SCHEMAS = {
  scenario: scenarioJsonSchema,
  plan: planJsonSchema,
  explanation: explanationJsonSchema,
  offer: offerJsonSchema,
  'offer-set': offerSetsJsonSchema,
  ...FINANCE_JSON_SCHEMAS,
} as const;

const NAMES = Object.keys(SCHEMAS) as (keyof typeof SCHEMAS)[];

const HELP = `Usage: cutpoint schema [NAME]

NAME is one of
  ${NAMES.join(', ')}

The JSON Schema (2020-12) of the scenario format, for editors, or of the document that a
command prints with --json: plan, explain (explanation), offer (of several: offer-set), sweep
(with --by: sweep-map), fee, tornado, risk, compare (comparison).
`;

export const schemaCommand: Command = {
  help: HELP,
  async run(args, terminal) {
    const { positionals } = readArguments(args, {}, { least: 0, most: 1, called: 'the name of a document' });
    const which = readChoice('The schema', positionals[0] ?? 'scenario', NAMES);
    terminal.out(`${JSON.stringify(SCHEMAS[which](), undefined, 2)}\n`);
    return EXIT.answered;
  },
};
