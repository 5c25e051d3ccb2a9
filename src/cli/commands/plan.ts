import { createHash } from 'node:crypto';
import { basename, dirname } from 'node:path';
import { answerPlan } from '../../host/answer-plan.js';
import { loadLinearSolver } from '../../host/linear-solver.js';
import type { PlanRequest } from '../../host/plan-request.js';
import { planCsv } from '../../report/plan-csv.js';
import type { PlanDocument } from '../../report/plan-document.js';
import { type MonthsInDetail, printPlan } from '../../report/plan-report.js';
import { readArguments, readChoice, readPositive } from '../arguments.js';
import type { Command } from '../command.js';
import { EXIT, type ExitCode, UsageError } from '../exit-code.js';
import { readText, writeFiles } from '../files.js';
import { printProblems } from '../print-problems.js';
import { progressLine } from '../progress-line.js';
import type { Terminal } from '../terminal.js';

const HELP = `Usage: cutpoint plan FILE [options]

The plan that earns the most for a scenario, with its proof. FILE is a scenario; - reads standard
input.

  --json              print one JSON document (cutpoint schema plan) in place of tables
  --xlsx FILE         write a workbook there too
  --csv DIR           write the tables as CSV files into DIR too
  --month M           details of a month (2027-03) or of all months, of several
  --engine E          auto (the default), javascript-lp-solver or highs
  --gap G             with whole shifts: stop at this gap, a share of the money that moves
  --time-limit S      stop after S seconds, with the best plan so far
  --progress          show how far a solve with whole shifts has come, also where it is no terminal

Ctrl-C stops a solve with whole shifts and keeps its best plan; a second one ends the program.
Exit codes: 0 answered, 2 bad input or usage, 3 no feasible plan, 4 no certified answer within the
limits.
`;

const ENGINES = ['auto', 'javascript-lp-solver', 'highs'] as const;

export const planCommand: Command = {
  help: HELP,
  async run(args, terminal, services) {
    const { values, positionals } = readArguments(
      args,
      {
        json: { type: 'boolean' },
        csv: { type: 'string' },
        xlsx: { type: 'string' },
        month: { type: 'string' },
        engine: { type: 'string' },
        gap: { type: 'string' },
        'time-limit': { type: 'string' },
        progress: { type: 'boolean' },
      },
      { least: 1, most: 1, called: 'the file of a scenario, or - for standard input' },
    );
    const limits = {
      engine: readChoice('--engine', values.engine ?? 'auto', ENGINES),
      gap: readPositive('--gap', values.gap),
      seconds: readPositive('--time-limit', values['time-limit']),
    };
    const loading = loadLinearSolver(limits.engine);
    const text = await readText(positionals[0], terminal);
    const request: PlanRequest = { ...limits, text, scenarioDigest: digestOf(text) };
    const line = progressLine(terminal, values.progress === true);
    const onRead = (months: readonly string[]) => refuseOtherMonth(values.month, months);
    const outcome = await answerPlan(request, services.planWorker, { ...line, onRead }, loading);
    if (outcome.kind === 'problems') return printProblems(outcome.problems, terminal);
    const { document } = outcome;
    const detail = detailOf(values.month);
    if (values.csv !== undefined) await writeCsv(values.csv, document);
    if (values.xlsx !== undefined) await writeWorkbook(values.xlsx, document, values.month);
    return printDocument(document, values.json === true, detail, terminal);
  },
};

function printDocument(
  document: PlanDocument,
  json: boolean,
  detail: MonthsInDetail,
  terminal: Terminal,
): ExitCode {
  if (json) terminal.out(`${JSON.stringify(document, undefined, 2)}\n`);
  const code = EXIT_BY_STATUS[document.status];
  if (code !== EXIT.answered) terminal.err(printPlan(document));
  else if (!json) terminal.out(printPlan(document, detail));
  return code;
}

const EXIT_BY_STATUS: Readonly<Record<PlanDocument['status'], ExitCode>> = {
  optimal: EXIT.answered,
  stopped: EXIT.answered,
  infeasible: EXIT.noFeasiblePlan,
  'no certified answer': EXIT.noCertifiedAnswer,
};

/** @throws UsageError for a month that the scenario has not. */
function refuseOtherMonth(month: string | undefined, months: readonly string[]): void {
  if (month === undefined || month === 'all' || months.includes(month)) return;
  throw new UsageError(`--month takes a month of the scenario (${months[0]} is the first) or all.`);
}

function detailOf(month: string | undefined): MonthsInDetail {
  if (month === undefined) return 'none';
  return month === 'all' ? 'all' : { month };
}

async function writeCsv(directory: string, document: PlanDocument): Promise<void> {
  if ('months' in document) await writeFiles(directory, planCsv(document));
}

/** Loaded when asked for: other plans do not pay for it. */
async function writeWorkbook(path: string, document: PlanDocument, month: string | undefined): Promise<void> {
  if (!('months' in document)) return;
  const { planWorkbook } = await import('../../report/xlsx/plan-workbook.js');
  const at = document.months.findIndex((each) => each.month === month);
  const bytes = await planWorkbook(document, at < 0 ? undefined : at);
  await writeFiles(dirname(path), [{ name: basename(path), text: bytes }]);
}

function digestOf(text: string): string {
  return `sha256:${createHash('sha256').update(text).digest('hex')}`;
}
