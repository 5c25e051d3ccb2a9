import { createHash } from 'node:crypto';
import { basename, dirname } from 'node:path';
import { answerPlan } from '../../host/answer-plan.js';
import { standalonePlan } from '../../report/html/standalone.js';
import { printPlan } from '../../report/plan-report.js';
import { readArguments, readPositive } from '../arguments.js';
import type { Command } from '../command.js';
import { EXIT, UsageError } from '../exit-code.js';
import { readText, writeFiles } from '../files.js';
import { printProblems } from '../print-problems.js';
import { progressLine } from '../progress-line.js';

const HELP = `Usage: cutpoint report FILE [options]

The plan that earns the most as one page of HTML with nothing to load, to be opened, sent on or
printed. FILE is a scenario; - reads standard input.

  -o, --output FILE   write the page there in place of standard output
  --month M           one month (2027-03) of several in place of all together
  --gap G             with whole shifts: stop at this gap, a share of the money that moves
  --time-limit S      stop after S seconds, with the best plan so far

Exit codes: 0 answered, 2 bad input or usage, 3 no feasible plan, 4 no certified answer within the
limits.
`;

export const reportCommand: Command = {
  help: HELP,
  async run(args, terminal, services) {
    const { values, positionals } = readArguments(
      args,
      {
        output: { type: 'string', short: 'o' },
        month: { type: 'string' },
        gap: { type: 'string' },
        'time-limit': { type: 'string' },
      },
      { least: 1, most: 1, called: 'the file of a scenario, or - for standard input' },
    );
    const gap = readPositive('--gap', values.gap);
    const seconds = readPositive('--time-limit', values['time-limit']);
    const text = await readText(positionals[0], terminal);
    const outcome = await answerPlan(
      { text, engine: 'auto', gap, seconds, scenarioDigest: digestOf(text) },
      services.planWorker,
      progressLine(terminal, false),
    );
    if (outcome.kind === 'problems') return printProblems(outcome.problems, terminal);
    const { document } = outcome;
    if (!('months' in document)) {
      terminal.err(printPlan(document));
      return document.status === 'infeasible' ? EXIT.noFeasiblePlan : EXIT.noCertifiedAnswer;
    }
    const month = document.months.findIndex((each) => each.month === values.month);
    if (values.month !== undefined && month < 0) {
      throw new UsageError(
        `--month takes a month of the scenario; ${document.horizon.firstMonth} is the first.`,
      );
    }
    const page = standalonePlan(document, month < 0 ? undefined : month);
    if (values.output === undefined) terminal.out(page);
    else await writeFiles(dirname(values.output), [{ name: basename(values.output), text: page }]);
    return EXIT.answered;
  },
};

function digestOf(text: string): string {
  return `sha256:${createHash('sha256').update(text).digest('hex')}`;
}
