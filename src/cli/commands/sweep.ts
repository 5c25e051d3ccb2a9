import type { SweepOutcome, SweepRequest } from '../../analysis/sweep/sweep.js';
import type { SweepMapOutcome, SweepMapRequest } from '../../analysis/sweep/sweep-map.js';
import type { Parameter } from '../../analysis/variant/parameter.js';
import { sweepDocument, sweepMapDocument } from '../../report/finance/sweep-document.js';
import { sweepMapReport, sweepReport } from '../../report/finance/sweep-report.js';
import { readArguments, readPositive } from '../arguments.js';
import type { Command } from '../command.js';
import { EXIT, type ExitCode, UsageError } from '../exit-code.js';
import { askOfScenario, type ScenarioQuestion } from '../finance/ask-of-scenario.js';
import { QUESTION_HELP, QUESTION_OPTIONS, readNumber } from '../finance/question.js';

const HELP = `Usage: cutpoint sweep FILE --of POINTER --from A --to B [options]

The present value of the best plan as a function of one number of a scenario. Exact, with every
breakpoint, where the number reaches only prices and costs or only limits; else sampled, with the
error stated.

  --of POINTER        the number, as a JSON Pointer; ids may stand for list positions
                      (/outlets/turf/price). Several times: several numbers tied together
  --from A, --to B    the range; for a series: of every month
  --factor            the range is of a factor on the numbers
  --tolerance E       where it is sampled: stop at this error, a share of the money that moves (1e-4);
                      with whole shifts each plan is made to within it too
  --points N          where it is sampled: no more points than this (129)
  --by POINTER        a second number, for a map: one curve for each of its values
  --by-from, --by-to  its range
  --by-factor         the range is of a factor on it
  --rows N            how many values of it (5)
${QUESTION_HELP}`;

export const sweepCommand: Command = {
  help: HELP,
  async run(args, terminal, services) {
    const { values, positionals } = readArguments(
      args,
      {
        ...QUESTION_OPTIONS,
        of: { type: 'string', multiple: true },
        from: { type: 'string' },
        to: { type: 'string' },
        factor: { type: 'boolean' },
        tolerance: { type: 'string' },
        points: { type: 'string' },
        by: { type: 'string', multiple: true },
        'by-from': { type: 'string' },
        'by-to': { type: 'string' },
        'by-factor': { type: 'boolean' },
        rows: { type: 'string' },
      },
      { least: 1, most: 1, called: 'the file of a scenario, or - for standard input' },
    );
    const [from, to] = ordered(readNumber('--from', values.from), readNumber('--to', values.to));
    const tolerance = readPositive('--tolerance', values.tolerance);
    const mostPoints = readPositive('--points', values.points);
    const request = {
      parameter: parameterOf('--of', values.of, values.factor),
      from,
      to,
      ...(tolerance === undefined ? {} : { tolerance }),
      ...(mostPoints === undefined ? {} : { mostPoints: Math.floor(mostPoints) }),
    };
    if (values.by === undefined) {
      return askOfScenario(positionals[0], values, sweepQuestion(request), terminal, services);
    }
    const [low, high] = ordered(
      readNumber('--by-from', values['by-from']),
      readNumber('--by-to', values['by-to']),
    );
    const rows = Math.max(1, Math.floor(readPositive('--rows', values.rows) ?? 5));
    const by = { parameter: parameterOf('--by', values.by, values['by-factor']), from: low, to: high, rows };
    return askOfScenario(positionals[0], values, mapQuestion({ ...request, by }), terminal, services);
  },
};

function sweepQuestion(request: SweepRequest): ScenarioQuestion<SweepOutcome> {
  return {
    ask: (document, pool, onProgress) => pool.answer({ kind: 'sweep', document, request }, onProgress),
    report: (answer, document, plant) => sweepReport(sweepDocument(document, plant, request, answer)),
    codeOf: ({ points, status }) => codeOf(points.length, status),
  };
}

function mapQuestion(request: SweepMapRequest): ScenarioQuestion<SweepMapOutcome> {
  const { parameter: by } = request.by;
  return {
    ask: (document, pool, onProgress) => pool.answer({ kind: 'sweep map', document, request }, onProgress),
    report: ({ rows }, document, plant) =>
      sweepMapReport(sweepMapDocument(document, plant, request, by, rows)),
    codeOf: ({ rows, status }) =>
      codeOf(
        rows.reduce((sum, { answer }) => sum + answer.points.length, 0),
        status,
      ),
  };
}

/** @throws UsageError where no pointer is given. */
function parameterOf(
  option: string,
  pointers: readonly string[] | undefined,
  factor: boolean | undefined,
): Parameter {
  if (pointers === undefined) throw new UsageError(`Give ${option} and a JSON Pointer.`);
  return { pointers, kind: factor === true ? 'factor' : 'value' };
}

function ordered(a: number, b: number): [number, number] {
  return a <= b ? [a, b] : [b, a];
}

function codeOf(points: number, status: 'complete' | 'partial'): ExitCode {
  if (points > 0) return EXIT.answered;
  return status === 'partial' ? EXIT.noCertifiedAnswer : EXIT.noFeasiblePlan;
}
