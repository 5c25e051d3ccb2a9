import type { Problem } from '../../issue/problem.js';
import type { QuestionReport } from '../../report/finance/question-report.js';
import { namedReport } from '../../report/html/named-report.js';
import { ask, askedBefore, type PageServices } from './ask.js';
import type { ScenarioPage } from './scenario-page.js';
import { WHAT_IFS, type WhatIf } from './what-if-forms.js';
import { whatIfQuestion } from './what-if-question.js';
import { whatIfReport } from './what-if-report.js';

export type WhatIfAnswer =
  | { readonly kind: 'not yet'; readonly say: string }
  | { readonly kind: 'problems'; readonly detail: string; readonly problems: readonly Problem[] }
  | { readonly kind: 'without plan'; readonly reasons: readonly string[] }
  | { readonly kind: 'report'; readonly report: QuestionReport; readonly isPartial: boolean };

/** Which of the what-ifs an address asks for. */
export function whatIfOf(query: URLSearchParams): WhatIf {
  return WHAT_IFS.find(([name]) => name === query.get('what'))?.[0] ?? 'sweep';
}

/**
 * What the form in a page's address asks is answered with; `job` in it names one that was stopped.
 *
 * @param client who asks: others' jobs are not theirs
 * @throws ThreadFailure where no answer can come
 */
export async function whatIfAnswer(
  services: PageServices,
  page: ScenarioPage,
  client: string,
): Promise<WhatIfAnswer> {
  const asking = await whatIfQuestion(services, page, whatIfOf(page.query));
  if (asking.kind === 'not yet') return asking;
  const id = page.query.get('job');
  const before = id === null ? undefined : askedBefore(services, asking.question, { id, client });
  const answer = before ?? (await ask(services, asking.question));
  if (answer.kind === 'problems') return answer;
  const report = whatIfReport(asking.question, answer.document);
  const { status, reasons = ['There is no answer.'] } = answer.document as {
    readonly status?: string;
    readonly reasons?: readonly string[];
  };
  if (report === undefined) return { kind: 'without plan', reasons };
  return { kind: 'report', report: namedReport(report, page.numbers), isPartial: status === 'partial' };
}
