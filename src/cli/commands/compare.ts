import { bridge } from '../../analysis/comparison/bridge.js';
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
    const plans = answers.map((answered) => answered?.answer);
    for (const plan of plans) {
      if (plan?.status === 'infeasible') return withoutPlan('infeasible', terminal);
    }
    const [first, second] = plans;
    if (first === undefined || second === undefined || !('plan' in first) || !('plan' in second)) {
      return withoutPlan('no certified answer', terminal);
    }
    const steps = bridge(
      { plant: before.plant, plan: first.plan },
      { plant: after.plant, plan: second.plan },
    );
    return present(comparisonReport(before.plant, after.plant, steps), values, terminal);
  },
};
