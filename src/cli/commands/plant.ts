import { readPlant } from '../../plant/read-plant.js';
import { flowDrawing } from '../../report/flow-drawing.js';
import { plantReport } from '../../report/plant-report.js';
import { readArguments } from '../arguments.js';
import type { Command } from '../command.js';
import { EXIT } from '../exit-code.js';
import { readText } from '../files.js';
import { printProblems } from '../print-problems.js';

const HELP = `Usage: cutpoint plant FILE [--svg]

The plant that a scenario amounts to: for each step its net throughput, passes, energy and wear,
what it makes and of what, the mass balance by constituent; machine hours; published figures that
are used. FILE is a scenario; - reads standard input.

  --svg    print a drawing of the flow of materials instead

Exit codes: 0 answered, 2 bad input.
`;

export const plantCommand: Command = {
  help: HELP,
  async run(args, terminal) {
    const { values, positionals } = readArguments(
      args,
      { svg: { type: 'boolean' } },
      { least: 1, most: 1, called: 'the file of a scenario, or - for standard input' },
    );
    const reading = readPlant(await readText(positionals[0], terminal));
    if (!reading.ok) return printProblems(reading.problems, terminal);
    const { plant, warnings } = reading;
    terminal.out(values.svg === true ? flowDrawing(plant) : plantReport(plant, warnings));
    return EXIT.answered;
  },
};
