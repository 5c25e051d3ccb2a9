import { fitRosinRammler } from '../../plant/fit-sizing.js';
import { parseSieveTable } from '../../plant/sieve-table.js';
import { sizingFitReport } from '../../report/sizing-fit-report.js';
import { readArguments } from '../arguments.js';
import type { Command } from '../command.js';
import { EXIT, UsageError } from '../exit-code.js';
import { readText } from '../files.js';

const HELP = `Usage: cutpoint fit SIEVE.csv [--json]

The size distribution (d63 and n of a sizing) that fits a measured sieve table best. A line a
sieve: its opening in mm or by designation ("2.36 mm", "600 um", "No. 30"), and the cumulative
percent of the mass that passes it. - reads standard input.

  --json    print { "d63", "n", "rms", "worst", "points" }, openings in mm, shares 0 to 1

Exit codes: 0 answered, 2 a line that cannot be read, or too few sieves.
`;

export const fitCommand: Command = {
  help: HELP,
  async run(args, terminal) {
    const { values, positionals } = readArguments(
      args,
      { json: { type: 'boolean' } },
      { least: 1, most: 1, called: 'the file of a sieve table, or - for standard input' },
    );
    const table = parseSieveTable(await readText(positionals[0], terminal));
    if (!table.ok) {
      for (const { line, message } of table.problems) terminal.err(`line ${line}: ${message}\n`);
      return EXIT.badInput;
    }
    const fit = fitted(table.points);
    terminal.out(values.json === true ? `${JSON.stringify(fit, undefined, 2)}\n` : sizingFitReport(fit));
    return EXIT.answered;
  },
};

function fitted(points: Parameters<typeof fitRosinRammler>[0]) {
  try {
    return fitRosinRammler(points);
  } catch (error) {
    if (error instanceof RangeError) throw new UsageError(error.message);
    throw error;
  }
}
