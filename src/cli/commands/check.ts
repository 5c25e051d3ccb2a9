import { readPlant } from '../../plant/read-plant.js';
import { printParagraph } from '../../report/section.js';
import { readArguments } from '../arguments.js';
import type { Command } from '../command.js';
import { EXIT } from '../exit-code.js';
import { readText } from '../files.js';
import { printProblems } from '../print-problems.js';

const HELP = `Usage: cutpoint check FILE [--json]

Everything that is wrong with a scenario: where, what, and what to do. FILE is a scenario; - reads
standard input.

  --json    print { "problems": [ { "pointer", "code", "message", "remedy" } ], "warnings": [ … ] }

Exit codes: 0 nothing is wrong, 2 something is.
`;

export const checkCommand: Command = {
  help: HELP,
  async run(args, terminal) {
    const { values, positionals } = readArguments(
      args,
      { json: { type: 'boolean' } },
      { least: 1, most: 1, called: 'the file of a scenario, or - for standard input' },
    );
    const reading = readPlant(await readText(positionals[0], terminal));
    const problems = reading.ok ? [] : reading.problems;
    const warnings = reading.ok ? reading.warnings : [];
    if (values.json === true) {
      terminal.out(`${JSON.stringify({ problems, warnings }, undefined, 2)}\n`);
      return reading.ok ? EXIT.answered : EXIT.badInput;
    }
    if (!reading.ok) return printProblems(problems, terminal);
    terminal.out('Nothing is wrong.\n');
    for (const { message } of warnings) terminal.out(printParagraph(`Warning: ${message}`));
    return EXIT.answered;
  },
};
