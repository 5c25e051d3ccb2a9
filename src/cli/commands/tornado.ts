import type { TornadoItem } from '../../analysis/tornado/tornado.js';
import { withinShare } from '../../analysis/tornado/tornado.js';
import { tornadoReport } from '../../report/finance/tornado-report.js';
import { readArguments, readPositive } from '../arguments.js';
import type { Command } from '../command.js';
import { UsageError } from '../exit-code.js';
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

const HELP = `Usage: cutpoint tornado FILE --of POINTER[=LOW:HIGH] [--of …] [options]

Which numbers matter: the best plan at the low and the high of each, ranked by how far the present
value swings, and what the plan as it is would lose if it were not changed.

  --of POINTER=LOW:HIGH  a number and its range, in its own unit
  --of POINTER           a number within the share of --within around where it stands
  --within P             that share, in percent (10)
${QUESTION_HELP}`;

export const tornadoCommand: Command = {
  help: HELP,
  async run(args, terminal, services) {
    const { values, positionals } = readArguments(
      args,
      { ...QUESTION_OPTIONS, of: { type: 'string', multiple: true }, within: { type: 'string' } },
      { least: 1, most: 1, called: 'the file of a scenario, or - for standard input' },
    );
    if (values.of === undefined) throw new UsageError('Give --of and a JSON Pointer.');
    const percent = readPositive('--within', values.within) ?? 10;
    const items = values.of.map((text) => readItem(text, percent / 100));
    const reading = await readScenario(positionals[0], terminal);
    if (!reading.ok) return printProblems(reading.problems, terminal);
    const { scenario: document, plant } = reading;
    const answer = await inPool(terminal, services, values, plant.units.currency, (pool, line) =>
      pool.answer({ kind: 'tornado', document, items }, line.show),
    );
    if (answer === undefined) return stoppedAtOnce(terminal);
    if (answer.status === 'problems') return printProblems(answer.problems, terminal);
    if (answer.status !== 'complete' && answer.status !== 'partial')
      return withoutPlan(answer.status, terminal);
    return present(tornadoReport(document, plant, answer), values, terminal);
  },
};

/** @throws UsageError unless it reads POINTER or POINTER=LOW:HIGH. */
function readItem(text: string, share: number): TornadoItem {
  const [pointer, range, ...rest] = text.split('=');
  if (range === undefined) return withinShare([pointer], share);
  const [low, high, ...more] = range.split(':');
  if (high === undefined || rest.length + more.length > 0) {
    throw new UsageError(`--of takes POINTER=LOW:HIGH, not '${text}'.`);
  }
  const parameter = { pointers: [pointer], kind: 'value' } as const;
  return { parameter, low: readNumber('--of', low), high: readNumber('--of', high) };
}
