import type { Services } from '../../src/cli/command.js';
import { runCli } from '../../src/cli/run-cli.js';
import type { Terminal } from '../../src/cli/terminal.js';

/** What a command left behind. */
export interface Run {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

export interface RunOptions {
  readonly input?: string | Uint8Array;
  readonly isTTY?: boolean;
  readonly services?: Services;
  /** Given what stops the solve when the command listens for ctrl-C. */
  readonly onListen?: (interrupt: () => void) => void;
}

/** Runs a command in this process with strings for streams. */
export async function run(argv: readonly string[], options: RunOptions = {}): Promise<Run> {
  let out = '';
  let err = '';
  const terminal: Terminal = {
    out: (text) => {
      out += text;
    },
    err: (text) => {
      err += text;
    },
    isTTY: options.isTTY ?? false,
    columns: 100,
    env: {},
    input: async () =>
      typeof options.input === 'string'
        ? new TextEncoder().encode(options.input)
        : (options.input ?? new Uint8Array()),
    onInterrupt: (listener) => {
      options.onListen?.(listener);
      return () => {};
    },
  };
  const code = await runCli(argv, terminal, options.services);
  return { code, out, err };
}
