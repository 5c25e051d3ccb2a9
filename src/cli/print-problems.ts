import type { Problem } from '../issue/problem.js';
import { printProblem } from '../report/problem-report.js';
import { EXIT, type ExitCode } from './exit-code.js';
import type { Terminal } from './terminal.js';

/** Every problem of a scenario on standard error. */
export function printProblems(problems: readonly Problem[], terminal: Terminal): ExitCode {
  const count = problems.length === 1 ? '1 problem' : `${problems.length} problems`;
  terminal.err(`${problems.map(printProblem).join('')}\n${count}.\n`);
  return EXIT.badInput;
}
