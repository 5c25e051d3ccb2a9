import { feeReport } from '../../report/finance/fee-report.js';
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

const HELP = `Usage: cutpoint fee FILE --feed ID:LOW:HIGH [--feed ID:LOW:HIGH …] [options]

The tipping fee that earns most, with the feed's response to it: for one feed, or for several
together where they compete for the same machines. The range is in the unit in which the scenario
writes the fee.

  --gap G             stop where no fees can earn more than this above, a share of the money that
                      moves (1e-4)
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
    const reading = await readScenario(positionals[0], terminal);
    if (!reading.ok) return printProblems(reading.problems, terminal);
    const { scenario: document, plant } = reading;
    const answer = await inPool(terminal, services, values, plant.units.currency, (pool, line) =>
      pool.answer({ kind: 'fee', document, request }, line.show),
    );
    if (answer === undefined) return stoppedAtOnce(terminal);
    if (answer.status === 'problems') return printProblems(answer.problems, terminal);
    if (answer.status !== 'complete' && answer.status !== 'partial')
      return withoutPlan(answer.status, terminal);
    const bases = Object.fromEntries(
      document.feeds.map(({ id, tippingFee }) => [id, basisOf(tippingFee) ?? plant.units.mass]),
    );
    return present(feeReport(plant, answer, bases), values, terminal);
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

/** The `per` of the first rate in a series. */
function basisOf(fee: unknown): string | undefined {
  if (typeof fee !== 'object' || fee === null) return undefined;
  if (Array.isArray(fee)) return basisOf(fee[0]);
  if ('values' in fee) return basisOf(fee.values);
  return 'per' in fee && typeof fee.per === 'string' ? fee.per : undefined;
}
