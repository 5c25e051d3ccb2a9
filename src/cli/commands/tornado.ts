import { type TornadoItem, type TornadoOutcome, withinShare } from '../../analysis/tornado/tornado.js';
import { tornadoReport } from '../../report/finance/tornado-report.js';
import { readArguments, readPositive } from '../arguments.js';
import type { Command } from '../command.js';
import { UsageError } from '../exit-code.js';
import { askOfScenario } from '../finance/ask-of-scenario.js';
import { QUESTION_HELP, QUESTION_OPTIONS, readNumber } from '../finance/question.js';

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
    return askOfScenario<TornadoOutcome>(
      positionals[0],
      values,
      {
        ask: (document, pool, onProgress) => pool.answer({ kind: 'tornado', document, items }, onProgress),
        report: (answer, document, plant) => tornadoReport(document, plant, answer),
      },
      terminal,
      services,
    );
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
