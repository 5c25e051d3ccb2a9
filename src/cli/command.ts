import type { ExitCode } from './exit-code.js';
import type { Terminal } from './terminal.js';

export interface Command {
  /** What `--help` prints. */
  readonly help: string;
  /** @throws UsageError for wrong arguments and files that cannot be read or written. */
  run(args: readonly string[], terminal: Terminal, services: Services): Promise<ExitCode>;
}

/** What commands need of the program that they are part of. */
export interface Services {
  /** The program of the worker thread for whole-number plans. */
  readonly planWorker: URL;
}
