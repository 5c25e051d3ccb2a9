import { availableParallelism } from 'node:os';
import { basename, dirname } from 'node:path';
import type { AnalysisPool } from '../../host/analysis-pool.js';
import { openAnalysisPool } from '../../host/analysis-pool.js';
import { type PlantReading, readPlant } from '../../plant/read-plant.js';
import { printReport, type QuestionReport, reportCsv } from '../../report/finance/question-report.js';
import { readPositive } from '../arguments.js';
import type { Services } from '../command.js';
import { EXIT, type ExitCode, UsageError } from '../exit-code.js';
import { readText, writeFiles } from '../files.js';
import type { Terminal } from '../terminal.js';
import { analysisLine } from './analysis-line.js';

/** Options that every question takes. */
export const QUESTION_OPTIONS = {
  json: { type: 'boolean' },
  csv: { type: 'string' },
  svg: { type: 'string' },
  workers: { type: 'string' },
  progress: { type: 'boolean' },
} as const;

export const QUESTION_HELP = `  --json              print one JSON document in place of tables
  --csv DIR           write the tables as CSV files into DIR too
  --svg DIR           write the charts as SVG files into DIR too; a FILE.svg takes the first one
  --progress          show how far it has come, also where it is no terminal

Ctrl-C stops it and keeps what is found so far, marked as partial; a second one ends the program.
Exit codes: 0 answered, 2 bad input or usage, 3 no feasible plan, 4 no certified answer.
`;

export interface QuestionValues {
  readonly json?: boolean;
  readonly csv?: string;
  readonly svg?: string;
  readonly workers?: string;
  readonly progress?: boolean;
}

/** Reads the scenario of a question. */
export async function readScenario(path: string, terminal: Terminal): Promise<PlantReading> {
  return readPlant(await readText(path, terminal));
}

/** Asks in worker threads, which are stopped at ctrl-C and closed at the end. */
export async function inPool<T>(
  terminal: Terminal,
  { planWorker }: Services,
  values: QuestionValues,
  currency: string,
  ask: (pool: AnalysisPool, line: ReturnType<typeof analysisLine>) => Promise<T>,
): Promise<T> {
  const workers = readPositive('--workers', values.workers) ?? availableParallelism();
  const pool = openAnalysisPool({
    worker: new URL('analysis-worker.js', planWorker),
    workers: Math.max(1, Math.floor(workers)),
  });
  const line = analysisLine(terminal, values.progress === true, currency);
  const removeListener = terminal.onInterrupt(() => pool.stop());
  try {
    return await ask(pool, line);
  } finally {
    removeListener();
    line.end();
    await pool.close();
  }
}

/** Prints a report, or its JSON, and writes the files that are asked for. */
export async function present(
  report: QuestionReport,
  { json, csv, svg }: QuestionValues,
  terminal: Terminal,
  code: ExitCode = EXIT.answered,
): Promise<ExitCode> {
  if (csv !== undefined) await writeFiles(csv, reportCsv(report));
  if (svg !== undefined) await writeCharts(svg, report);
  terminal.out(json === true ? `${JSON.stringify(report.document, undefined, 2)}\n` : printReport(report));
  return code;
}

/** What is said where there is no plan to begin with. */
export function withoutPlan(status: 'infeasible' | 'no certified answer', terminal: Terminal): ExitCode {
  if (status === 'infeasible') {
    terminal.err('No plan meets all the limits of this scenario together.\n');
    return EXIT.noFeasiblePlan;
  }
  terminal.err('No engine gave an answer that holds against the figures of the scenario.\n');
  return EXIT.noCertifiedAnswer;
}

/** What is said where ctrl-C came before anything was found. */
export function stoppedAtOnce(terminal: Terminal): ExitCode {
  terminal.err('Stopped before anything was found.\n');
  return EXIT.noCertifiedAnswer;
}

/** @throws UsageError where the text is absent or not a finite number. */
export function readNumber(option: string, text: string | undefined): number {
  const value = text === undefined || text.trim() === '' ? Number.NaN : Number(text);
  if (!Number.isFinite(value)) {
    throw new UsageError(text === undefined ? `Give ${option}.` : `${option} takes a number, not '${text}'.`);
  }
  return value;
}

async function writeCharts(place: string, { charts }: QuestionReport): Promise<void> {
  if (place.endsWith('.svg')) {
    const [first] = charts;
    if (first !== undefined)
      await writeFiles(dirname(place), [{ name: basename(place), text: `${first.svg}\n` }]);
    return;
  }
  await writeFiles(
    place,
    charts.map(({ name, svg }) => ({ name: `${name}.svg`, text: `${svg}\n` })),
  );
}
