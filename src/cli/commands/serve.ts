import { readFile } from 'node:fs/promises';
import type { Access } from '../../web/access.js';
import { SERVER_LIMITS } from '../../web/limits.js';
import { isLoopback, type RunningServer, startServer } from '../../web/server.js';
import { readArguments } from '../arguments.js';
import type { Command } from '../command.js';
import { EXIT, UsageError } from '../exit-code.js';
import type { Terminal } from '../terminal.js';
import { version } from '../version.js';

const HELP = `Usage: cutpoint serve [options]

Answers over HTTP: plans, checks and other questions, and the scenarios of a folder. The reference is
at /reference, the OpenAPI document at /openapi.json. Ctrl-C lets it end what it is working on.

  --scenarios DIR       the folder of scenarios; ./scenarios unless given
  --host H              where to listen; 127.0.0.1 unless given, which only this machine reaches
  --port P              8080 unless given; 0 takes any that is free
  --allow-origin O      an origin whose pages may call it, such as https://sheets.example; may stand
                        several times
  --token-file FILE     a token in the first line, for all; in the second, where there is one, for
                        reading and asking only
  --workers N           threads that solve; 2 unless given
  --solve-seconds S     how long an answer may take; 60 unless given

With a host that other machines reach a token is needed: in --token-file, or in the environment as
CUTPOINT_TOKEN (all) and CUTPOINT_READ_TOKEN (reading and asking). A token has 16 characters or more.
Requests are logged as lines of JSON on standard error.
`;

export const serveCommand: Command = {
  help: HELP,
  async run(args, terminal, services) {
    const { values } = readArguments(
      args,
      {
        scenarios: { type: 'string' },
        host: { type: 'string' },
        port: { type: 'string' },
        'allow-origin': { type: 'string', multiple: true },
        'token-file': { type: 'string' },
        workers: { type: 'string' },
        'solve-seconds': { type: 'string' },
      },
      { least: 0, most: 0, called: 'options only' },
    );
    const host = values.host ?? '127.0.0.1';
    const access = await accessOf(values['token-file'], terminal);
    if (!isLoopback(host) && access.kind === 'open') {
      throw new UsageError(`Other machines reach ${host}: set CUTPOINT_TOKEN, or give --token-file.`);
    }
    const threads = wholeNumber('--workers', values.workers ?? '2', 1, 64);
    const server = await started({
      host,
      port: wholeNumber('--port', values.port ?? '8080', 0, 65_535),
      scenarios: values.scenarios ?? 'scenarios',
      access,
      origins: (values['allow-origin'] ?? []).map(originOf),
      version: version(),
      limits: {
        ...SERVER_LIMITS,
        threads,
        solveSeconds: wholeNumber('--solve-seconds', values['solve-seconds'] ?? '60', 1, 3600),
        jobs: { ...SERVER_LIMITS.jobs, active: threads + SERVER_LIMITS.waiting },
      },
      log: (entry) => terminal.err(`${JSON.stringify(entry)}\n`),
      questionWorker: new URL('question-worker.js', services.planWorker),
    });
    terminal.out(`cutpoint listens at ${server.url} (reference: ${server.url}/reference)\n`);
    await new Promise<void>((resolve) => terminal.onInterrupt(resolve));
    await server.close();
    return EXIT.answered;
  },
};

async function started(options: Parameters<typeof startServer>[0]): Promise<RunningServer> {
  try {
    return await startServer(options);
  } catch (error) {
    if (!(error instanceof Error) || !('code' in error)) throw error;
    throw new UsageError(
      `cannot serve ${options.scenarios} at ${options.host}:${options.port}: ${error.code}.`,
    );
  }
}

const SHORTEST_TOKEN = 16;

async function accessOf(file: string | undefined, { env }: Terminal): Promise<Access> {
  const [first, second] = file === undefined ? [] : await linesOf(file);
  const full = first ?? env.CUTPOINT_TOKEN;
  const read = second ?? env.CUTPOINT_READ_TOKEN;
  for (const token of [full, read]) {
    if (token !== undefined && !/^[A-Za-z0-9._~+/=-]{16,512}$/.test(token)) {
      throw new UsageError(`A token has ${SHORTEST_TOKEN} to 512 characters of A–Z a–z 0–9 . _ ~ + / = -`);
    }
  }
  if (full === undefined && read === undefined) return { kind: 'open' };
  return { kind: 'tokens', ...(full === undefined ? {} : { full }), ...(read === undefined ? {} : { read }) };
}

async function linesOf(file: string): Promise<string[]> {
  try {
    const text = await readFile(file, 'utf8');
    return text.split(/\r?\n/).filter((line) => line !== '');
  } catch {
    throw new UsageError(`cannot read the tokens in ${file}.`);
  }
}

function originOf(text: string): string {
  const origin = URL.canParse(text) ? new URL(text).origin : 'null';
  if (origin === 'null')
    throw new UsageError(`--allow-origin takes an origin such as https://sheets.example, not '${text}'.`);
  return origin;
}

function wholeNumber(option: string, text: string, least: number, most: number): number {
  const value = /^\d{1,6}$/.test(text) ? Number(text) : Number.NaN;
  if (value >= least && value <= most) return value;
  throw new UsageError(`${option} takes a whole number from ${least} to ${most}, not '${text}'.`);
}
