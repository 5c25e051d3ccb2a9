import { ThreadFailure } from '../../host/thread-pool.js';
import type { Problem } from '../../issue/problem.js';
import { html, type Markup } from '../../report/html/markup.js';
import { REFUSALS, type Refusal } from '../api/refusal.js';
import { markupResponse } from './markup-response.js';
import { shell } from './shell.js';

/** What is shown in place of a page that cannot be. */
export function failurePage({ kind, detail, extras }: Refusal): Response {
  const { status, title } = REFUSALS[kind];
  const body = html`<h1>${title}</h1>${problemsNote(detail, extras.problems ?? [])}<p><a href="/">All scenarios</a></p>`;
  return markupResponse(shell({ title }, body), status);
}

/** What is wrong and what to do, each with its place. */
export function problemsNote(detail: string, problems: readonly Problem[]): Markup {
  return html`<div class="problems" role="alert"><p><b>${detail}</b></p>
<ul>${problems.map(
    ({ pointer, message, remedy }) =>
      html`<li>${message} ${remedy}${pointer !== '' && html` <span class="unit">(${pointer})</span>`}</li>`,
  )}</ul></div>`;
}

/**
 * A word for an answer that did not come, once the page has begun.
 *
 * @throws what is no failure of a runner
 */
export function faultNote(error: unknown): Markup {
  if (!(error instanceof ThreadFailure)) {
    return html`<div class="problems" role="alert"><p><b>The server failed.</b> Nothing was changed.</p></div>`;
  }
  const busy = error.reason === 'full' || error.reason === 'closed';
  return html`<div class="problems" role="alert"><p><b>${busy ? 'There is too much to do just now. Try again in a few seconds.' : 'No answer came within the time that it may take.'}</b></p></div>`;
}
