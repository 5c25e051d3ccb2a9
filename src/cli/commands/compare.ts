import { compared } from '../../analysis/comparison/compared.js';
import { comparisonReport } from '../../report/finance/comparison-report.js';
import { readArguments } from '../arguments.js';
import type { Command } from '../command.js';
import { UsageError } from '../exit-code.js';
import {
  inPool,
  present,
  QUESTION_HELP,
  QUESTION_OPTIONS,
  readScenario,
  stoppedAtOnce,
  withoutPlan,
} from '../finance/question.js';
import { printProblems } from '../print-problems.js';

const HELP = `Usage: cutpoint compare BEFORE AFTER [options]

Plans two scenarios and explains the difference of their margins: price, volume, yield, cost, new
and lost business, which add up.

${QUESTION_HELP}`;

export const compareCommand: Command = {
  help: HELP,
  async run(args, terminal, services) {
    const { values, positionals } = readArguments(args, QUESTION_OPTIONS, {
      least: 2,
      most: 2,
      called: 'the files of two scenarios',
    });
    const before = await readScenario(positionals[0], terminal);
    if (!before.ok) return printProblems(before.problems, terminal);
    const after = await readScenario(positionals[1], terminal);
    if (!after.ok) return printProblems(after.problems, terminal);
    const [a, b] = [before.plant.units, after.plant.units];
    if (a.mass !== b.mass || a.currency !== b.currency) {
      throw new UsageError(
        `The one is in ${a.currency} and ${a.mass}, the other in ${b.currency} and ${b.mass}.`,
      );
    }
    const answers = await inPool(terminal, services, values, a.currency, (pool) =>
      Promise.all([before, after].map(({ scenario: document }) => pool.answer({ kind: 'plan', document }))),
    );
    const [first, second] = answers.map((answered) => answered?.answer);
    if (first === undefined || second === undefined) return stoppedAtOnce(terminal);
    const outcome = compared({ plant: before.plant, answer: first }, { plant: after.plant, answer: second });
    if ('side' in outcome) {
      terminal.err(`${positionals[outcome.side === 'before' ? 0 : 1]}: `);
      return withoutPlan(outcome.status, terminal);
    }
    return present(comparisonReport(before.plant, after.plant, outcome), values, terminal);
  },
};
