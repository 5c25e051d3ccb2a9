import type { AnalysisProgress } from '../../host/analysis-order.js';
import type { AnalysisPool } from '../../host/analysis-pool.js';
import type { Problem } from '../../issue/problem.js';
import type { Plant } from '../../plant/plant.js';
import type { QuestionReport } from '../../report/finance/question-report.js';
import type { Scenario } from '../../scenario/schema/scenario.js';
import type { Services } from '../command.js';
import { EXIT, type ExitCode } from '../exit-code.js';
import { printProblems } from '../print-problems.js';
import type { Terminal } from '../terminal.js';
import {
  inPool,
  present,
  type QuestionValues,
  readScenario,
  stoppedAtOnce,
  withoutPlan,
} from './question.js';

/** What a question may be answered with; `complete` and `partial` carry the answer. */
export type Outcome =
  | { readonly status: 'complete' | 'partial' }
  | { readonly status: 'problems'; readonly problems: readonly Problem[] }
  | { readonly status: 'infeasible' | 'no certified answer' | 'cancelled' };

/** The outcomes that carry an answer. */
export type Answered<O extends Outcome> = Extract<O, { readonly status: 'complete' | 'partial' }>;

/** A question of one scenario: how it is asked, and what its answer looks like. */
export interface ScenarioQuestion<O extends Outcome> {
  /** Why it cannot be asked of the scenario. */
  readonly refusal?: (document: Scenario) => string | undefined;
  readonly ask: (
    document: Scenario,
    pool: AnalysisPool,
    onProgress: (progress: AnalysisProgress) => void,
  ) => Promise<O | undefined>;
  readonly report: (answer: Answered<O>, document: Scenario, plant: Plant) => QuestionReport;
  readonly codeOf?: (answer: Answered<O>) => ExitCode;
}

/** Reads a scenario, asks in worker threads and prints the answer, or says why there is none. */
export async function askOfScenario<O extends Outcome>(
  path: string,
  values: QuestionValues,
  question: ScenarioQuestion<O>,
  terminal: Terminal,
  services: Services,
): Promise<ExitCode> {
  const reading = await readScenario(path, terminal);
  if (!reading.ok) return printProblems(reading.problems, terminal);
  const { scenario, plant } = reading;
  const refusal = question.refusal?.(scenario);
  if (refusal !== undefined) {
    terminal.err(`${refusal}\n`);
    return EXIT.badInput;
  }
  const answer = await inPool(terminal, services, values, plant.units.currency, (pool, line) =>
    question.ask(scenario, pool, line.show),
  );
  if (answer === undefined) return stoppedAtOnce(terminal);
  if (answer.status === 'problems') return printProblems(answer.problems, terminal);
  const { status } = answer;
  if (status === 'cancelled') return stoppedAtOnce(terminal);
  if (status === 'infeasible' || status === 'no certified answer') return withoutPlan(status, terminal);
  const answered = answer as Answered<O>;
  const report = question.report(answered, scenario, plant);
  return present(report, values, terminal, question.codeOf?.(answered) ?? EXIT.answered);
}
