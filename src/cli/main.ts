#!/usr/bin/env node
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
    process.once('SIGINT', listener);
    return () => process.off('SIGINT', listener);
  },
};

// Whoever reads the output may have seen enough and gone: that is no failure.
for (const stream of [process.stdout, process.stderr]) {
  stream.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code !== 'EPIPE') throw error;
  });
}

process.exitCode = await runCli(process.argv.slice(2), terminal);
