import type { RiskOutcome } from '../../analysis/risk/risk.js';
import { assessRiskInPool } from '../../host/assess-risk-in-pool.js';
import { riskDocument } from '../../report/finance/risk-document.js';
import { riskReport } from '../../report/finance/risk-report.js';
import { readArguments, readPositive } from '../arguments.js';
import type { Command } from '../command.js';
import { askOfScenario } from '../finance/ask-of-scenario.js';
import { QUESTION_HELP, QUESTION_OPTIONS, readNumber } from '../finance/question.js';

const NOTHING_UNCERTAIN =
  'The scenario says of no number that it is uncertain: give it a list "uncertainty".';

const HELP = `Usage: cutpoint risk FILE --seed S [options]

Draws the numbers that the scenario calls uncertain and plans each draw: the distribution of the
present value, how often each rung is used, and what the plan made in advance loses against one made
after the draw. The same seed gives the same answer, whatever the number of workers.

  --seed S            a whole number
  --draws N           how many (1000)
  --level L           also how often and by how much the value falls below L
  --workers N         worker threads (one a processor)
${QUESTION_HELP}`;

export const riskCommand: Command = {
  help: HELP,
  async run(args, terminal, services) {
    const { values, positionals } = readArguments(
      args,
      {
        ...QUESTION_OPTIONS,
        seed: { type: 'string' },
        draws: { type: 'string' },
        level: { type: 'string' },
      },
      { least: 1, most: 1, called: 'the file of a scenario, or - for standard input' },
    );
    const request = {
      seed: Math.trunc(readNumber('--seed', values.seed)),
      draws: Math.max(1, Math.floor(readPositive('--draws', values.draws) ?? 1000)),
      ...(values.level === undefined ? {} : { level: readNumber('--level', values.level) }),
    };
    return askOfScenario<RiskOutcome>(
      positionals[0],
      values,
      {
        refusal: ({ uncertainty = [] }) => (uncertainty.length === 0 ? NOTHING_UNCERTAIN : undefined),
        ask: (document, pool, onProgress) => assessRiskInPool(document, request, pool, onProgress),
        report: (answer, _, plant) => riskReport(plant, riskDocument(plant, answer)),
      },
      terminal,
      services,
    );
  },
};
