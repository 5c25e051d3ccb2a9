import type { FeeOutcome } from '../../analysis/fee/fee-answer.js';
import { feeBases } from '../../report/finance/fee-bases.js';
import { feeReport } from '../../report/finance/fee-report.js';
import { readArguments, readPositive } from '../arguments.js';
import type { Command } from '../command.js';
import { UsageError } from '../exit-code.js';
import { askOfScenario } from '../finance/ask-of-scenario.js';
import { QUESTION_HELP, QUESTION_OPTIONS, readNumber } from '../finance/question.js';

const HELP = `Usage: cutpoint fee FILE --feed ID:LOW:HIGH [--feed ID:LOW:HIGH …] [options]

The tipping fee that earns most, with the feed's response to it: for one feed, or for several
together where they compete for the same machines. The range is in the unit in which the scenario
writes the fee.

  --gap G             stop where no fees can earn more than this above, a share of the money that
                      moves (1e-4); with whole shifts each plan is made to this gap too
  --points N          points of each curve (25)
${QUESTION_HELP}`;

export const feeCommand: Command = {
  help: HELP,
  async run(args, terminal, services) {
    const { values, positionals } = readArguments(
      args,
      {
        ...QUESTION_OPTIONS,
        feed: { type: 'string', multiple: true },
        gap: { type: 'string' },
        points: { type: 'string' },
      },
      { least: 1, most: 1, called: 'the file of a scenario, or - for standard input' },
    );
    if (values.feed === undefined) throw new UsageError('Give --feed ID:LOW:HIGH.');
    const feeds = values.feed.map(readFeed);
    const gap = readPositive('--gap', values.gap);
    const points = readPositive('--points', values.points);
    const request = {
      feeds,
      ...(gap === undefined ? {} : { gap }),
      ...(points === undefined ? {} : { points: Math.max(2, Math.floor(points)) }),
    };
    return askOfScenario<FeeOutcome>(
      positionals[0],
      values,
      {
        ask: (document, pool, onProgress) => pool.answer({ kind: 'fee', document, request }, onProgress),
        report: (answer, document, plant) => feeReport(plant, answer, feeBases(document, plant.units.mass)),
      },
      terminal,
      services,
    );
  },
};

/** @throws UsageError unless it reads ID:LOW:HIGH. */
function readFeed(text: string): { feed: string; low: number; high: number } {
  const [feed, low, high, ...rest] = text.split(':');
  if (feed === '' || high === undefined || rest.length > 0) {
    throw new UsageError(`--feed takes ID:LOW:HIGH, not '${text}'.`);
  }
  const range = { low: readNumber('--feed', low), high: readNumber('--feed', high) };
  if (range.low > range.high) throw new UsageError(`--feed takes the lower fee first, not '${text}'.`);
  return { feed, ...range };
}
