import { createHash } from 'node:crypto';
import { answerExplanation } from '../../host/answer-explanation.js';
import type { ExplanationDocument } from '../../report/explain/explain-document.js';
import { printExplanation } from '../../report/explain/explain-report.js';
import { readArguments, readChoice, readPositive } from '../arguments.js';
import type { Command } from '../command.js';
import { EXIT, type ExitCode, UsageError } from '../exit-code.js';
import { readText } from '../files.js';
import { printProblems } from '../print-problems.js';
import { progressLine } from '../progress-line.js';
import type { Terminal } from '../terminal.js';

const HELP = `Usage: cutpoint explain FILE [options]

Why the plan is as it is: what binds and what an hour or a tonne of it is worth, why steps and
outlets are left alone and what it would take, how far prices may move. Where there is no plan:
which promises and limits cannot all hold, and the least that would have to give. FILE is a
scenario; - reads standard input.

  --json              print one JSON document (cutpoint schema explanation) in place of tables
  --engine E          auto (the default), javascript-lp-solver or highs
  --gap G             with whole shifts: stop each solve at this gap
  --time-limit S      stop each solve after S seconds
  --shifts N          with whole shifts: solve anew a shift more and less in the N windows with the
                      highest wages; each takes as long as the plan or longer
  --progress          show how far a solve with whole shifts has come, also where it is no terminal

Ctrl-C stops the plan's own solve and explains its best plan; a second one ends the program.
Exit codes: 0 answered, 2 bad input or usage, 3 no feasible plan, 4 no certified answer within the
limits.
`;

const ENGINES = ['auto', 'javascript-lp-solver', 'highs'] as const;

export const explainCommand: Command = {
  help: HELP,
  async run(args, terminal, services) {
    const { values, positionals } = readArguments(
      args,
      {
        json: { type: 'boolean' },
        engine: { type: 'string' },
        gap: { type: 'string' },
        'time-limit': { type: 'string' },
        shifts: { type: 'string' },
        progress: { type: 'boolean' },
      },
      { least: 1, most: 1, called: 'the file of a scenario, or - for standard input' },
    );
    const limits = {
      engine: readChoice('--engine', values.engine ?? 'auto', ENGINES),
      gap: readPositive('--gap', values.gap),
      seconds: readPositive('--time-limit', values['time-limit']),
      staffedWindows: readCount('--shifts', values.shifts),
    };
    const text = await readText(positionals[0], terminal);
    const scenarioDigest = `sha256:${createHash('sha256').update(text).digest('hex')}`;
    const outcome = await answerExplanation(
      { ...limits, text, scenarioDigest },
      services.planWorker,
      progressLine(terminal, values.progress === true),
    );
    if (outcome.kind === 'problems') return printProblems(outcome.problems, terminal);
    return printDocument(outcome.document, values.json === true, terminal);
  },
};

/** @throws UsageError unless it is a whole number. */
function readCount(option: string, text: string | undefined): number {
  const count = text === undefined ? 0 : readPositive(option, text);
  if (count === undefined || !Number.isInteger(count)) {
    throw new UsageError(`${option} takes a whole number, not '${text}'.`);
  }
  return count;
}

function printDocument(document: ExplanationDocument, json: boolean, terminal: Terminal): ExitCode {
  if (json) terminal.out(`${JSON.stringify(document, undefined, 2)}\n`);
  const code = EXIT_BY_STATUS[document.status];
  if (code !== EXIT.answered) terminal.err(printExplanation(document));
  else if (!json) terminal.out(printExplanation(document));
  return code;
}

const EXIT_BY_STATUS: Readonly<Record<ExplanationDocument['status'], ExitCode>> = {
  explained: EXIT.answered,
  infeasible: EXIT.noFeasiblePlan,
  'no certified answer': EXIT.noCertifiedAnswer,
};
