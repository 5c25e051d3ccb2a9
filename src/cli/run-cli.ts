import { PACKAGE_ROOT } from '../host/package-root.js';
import type { Command, Services } from './command.js';
import { EXIT, UsageError } from './exit-code.js';
import type { Terminal } from './terminal.js';
import { version } from './version.js';

interface Listed {
  readonly summary: string;
  readonly load: () => Promise<Command>;
}

/** Loaded when called for: a command pays for its own imports only. */
const COMMANDS: Readonly<Record<string, Listed>> = {
  plan: {
    summary: 'the plan that earns the most, with its proof',
    load: async () => (await import('./commands/plan.js')).planCommand,
  },
  explain: {
    summary: 'why the plan is as it is, or why there is none',
    load: async () => (await import('./commands/explain.js')).explainCommand,
  },
  report: {
    summary: 'the plan as one page of HTML, to be printed or sent on',
    load: async () => (await import('./commands/report.js')).reportCommand,
  },
  check: {
    summary: 'everything that is wrong with a scenario',
    load: async () => (await import('./commands/check.js')).checkCommand,
  },
  plant: {
    summary: 'the plant that a scenario amounts to: throughput, yields, assays, hours',
    load: async () => (await import('./commands/plant.js')).plantCommand,
  },
  fit: {
    summary: 'the size distribution that fits a measured sieve table',
    load: async () => (await import('./commands/fit.js')).fitCommand,
  },
  offer: {
    summary: "whether to sign a buyer's offer, or at what price",
    load: async () => (await import('./commands/offer.js')).offerCommand,
  },
  sweep: {
    summary: 'the value as a function of any number, with every breakpoint',
    load: async () => (await import('./commands/sweep.js')).sweepCommand,
  },
  fee: {
    summary: 'the tipping fee that earns most',
    load: async () => (await import('./commands/fee.js')).feeCommand,
  },
  tornado: {
    summary: 'which numbers matter',
    load: async () => (await import('./commands/tornado.js')).tornadoCommand,
  },
  risk: {
    summary: 'the distribution of the value over uncertain numbers',
    load: async () => (await import('./commands/risk.js')).riskCommand,
  },
  compare: {
    summary: 'two scenarios, and why their margins differ',
    load: async () => (await import('./commands/compare.js')).compareCommand,
  },
  serve: {
    summary: 'all of this over HTTP, with the scenarios of a folder',
    load: async () => (await import('./commands/serve.js')).serveCommand,
  },
  schema: {
    summary: 'the JSON Schema of a scenario or of a plan',
    load: async () => (await import('./commands/schema.js')).schemaCommand,
  },
};

const SERVICES: Services = { planWorker: new URL('dist/host/plan-worker.js', PACKAGE_ROOT) };

/** Runs one command. Returns the process's exit code: see EXIT. */
export async function runCli(
  argv: readonly string[],
  terminal: Terminal,
  services: Services = SERVICES,
): Promise<number> {
  const [name, ...args] = argv;
  try {
    if (name === '--version') return printed(terminal, `${version()}\n`);
    if (name === '--help' || name === '-h') return printed(terminal, overview());
    if (name === undefined) throw new UsageError('Say what to do.');
    if (!Object.hasOwn(COMMANDS, name)) throw new UsageError(`There is no command '${name}'.`);
    const command = await COMMANDS[name].load();
    if (asksForHelp(args)) return printed(terminal, command.help);
    return await command.run(args, terminal, services);
  } catch (error) {
    if (!(error instanceof UsageError)) throw error;
    const known = name !== undefined && Object.hasOwn(COMMANDS, name);
    terminal.err(`cutpoint: ${error.message}\nSee: cutpoint ${known ? `${name} ` : ''}--help\n`);
    return EXIT.badInput;
  }
}

function printed(terminal: Terminal, text: string): number {
  terminal.out(text);
  return EXIT.answered;
}

/** Words after `--` are never options. */
function asksForHelp(args: readonly string[]): boolean {
  const end = args.indexOf('--');
  return (end < 0 ? args : args.slice(0, end)).some((word) => word === '--help' || word === '-h');
}

function overview(): string {
  const longest = Math.max(...Object.keys(COMMANDS).map((name) => name.length));
  const lines = Object.entries(COMMANDS).map(
    ([name, { summary }]) => `  ${name.padEnd(longest)}  ${summary}`,
  );
  return [
    'Usage: cutpoint COMMAND …',
    '',
    'Plans how far a scrap-tire recycler reduces each tonne, to the largest margin.',
    '',
    ...lines,
    '',
    'cutpoint COMMAND --help says more. cutpoint --version prints the version.',
    'Exit codes: 0 answered, 2 bad input or usage, 3 no feasible plan, 4 no certified answer.',
    '',
  ].join('\n');
}
