import { assessRiskInPool } from '../../host/assess-risk-in-pool.js';
import { riskReport } from '../../report/finance/risk-report.js';
import { readArguments, readPositive } from '../arguments.js';
import type { Command } from '../command.js';
import { EXIT } from '../exit-code.js';
import {
  inPool,
  present,
  QUESTION_HELP,
  QUESTION_OPTIONS,
  readNumber,
  readScenario,
  stoppedAtOnce,
  withoutPlan,
} from '../finance/question.js';
import { printProblems } from '../print-problems.js';

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
    const reading = await readScenario(positionals[0], terminal);
    if (!reading.ok) return printProblems(reading.problems, terminal);
    const { scenario: document, plant } = reading;
    if ((document.uncertainty ?? []).length === 0) {
      terminal.err('The scenario says of no number that it is uncertain: give it a list "uncertainty".\n');
      return EXIT.badInput;
    }
    const answer = await inPool(terminal, services, values, plant.units.currency, (pool, line) =>
      assessRiskInPool(document, request, pool, line.show),
    );
    if (answer === undefined) return stoppedAtOnce(terminal);
    if (answer.status === 'problems') return printProblems(answer.problems, terminal);
    if (answer.status !== 'complete' && answer.status !== 'partial')
      return withoutPlan(answer.status, terminal);
    return present(riskReport(plant, answer), values, terminal);
  },
};
