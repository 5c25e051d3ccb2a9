#!/usr/bin/env node
import { setFlagsFromString } from 'node:v8';
import { config } from 'zod';
import { runCli } from './run-cli.js';
import type { Terminal } from './terminal.js';

const terminal: Terminal = {
  out: (text) => {
    process.stdout.write(text);
  },
  err: (text) => {
    process.stderr.write(text);
  },
  isTTY: process.stderr.isTTY === true,
  columns: process.stderr.columns ?? 100,
  env: process.env,
  input: async () => {
    const chunks: Buffer[] = [];
    for await (const chunk of process.stdin) chunks.push(chunk as Buffer);
    return Buffer.concat(chunks);
  },
  onInterrupt: (listener) => {
    const signals = ['SIGINT', 'SIGTERM'] as const;
    for (const signal of signals) process.once(signal, listener);
    return () => {
      for (const signal of signals) process.off(signal, listener);
    };
  },
};

// Whoever reads the output may have seen enough and gone: that is no failure.
for (const stream of [process.stdout, process.stderr]) {
  stream.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code !== 'EPIPE') throw error;
  });
}

const argv = process.argv.slice(2);
if (argv[0] !== 'serve') savePreparation();
process.exitCode = await runCli(argv, terminal);

/** Compiling pays only for a process that reads many documents or solves for long. */
function savePreparation(): void {
  config({ jitless: true });
  // What a WebAssembly function must have done before it is compiled again, faster: by default so little that a
  // month's plan is printed long before the compiler is done with it, and the process waits for the compiler.
  setFlagsFromString('--wasm-tiering-budget=40000000');
}
