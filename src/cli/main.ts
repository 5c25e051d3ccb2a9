#!/usr/bin/env node
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
// Compiling the schemas pays only for a process that reads many documents.
if (argv[0] !== 'serve') config({ jitless: true });
process.exitCode = await runCli(argv, terminal);
