import type { Json, Members } from './plant-document.js';
import { editing } from './plant-editing.js';
import { allFields, calmAll, complain, fieldOf, say } from './plant-fields.js';
import { money } from './plant-money.js';

interface Problem {
  readonly pointer: string;
  readonly message: string;
  readonly remedy: string;
}

/** Milliseconds in which further changes are waited for. */
const SOON = 120;

let timer = 0;
let asking = new AbortController();
/** Of the saved version. */
let before: number | undefined;

/** Checks the scenario a little later, and says what the changes do to the margin. */
export function judgeSoon(): void {
  asking.abort();
  asking = new AbortController();
  const { signal } = asking;
  say('Checking …');
  clearTimeout(timer);
  timer = window.setTimeout(() => {
    void judge(signal).catch((error: unknown) => {
      if (!signal.aborted) say(error instanceof Error ? `No answer: ${error.message}` : 'No answer.');
    });
  }, SOON);
}

/** What is saved is another version now. */
export function forgetSavedMargin(): void {
  before = undefined;
}

async function judge(signal: AbortSignal): Promise<void> {
  const { own, saved } = editing;
  const { problems } = (await ask('/check', { scenario: own }, signal)) as { problems: readonly Problem[] };
  calmAll();
  showProblems(own, problems);
  const count = allFields().filter((field) => field.dataset.wrong === 'text').length + problems.length;
  if (count > 0) return say(`${count} to put right; it cannot be saved like this.`);
  say('Planning …');
  before ??= await marginOf(saved, signal);
  const margin = await marginOf(own, signal);
  if (margin === undefined || before === undefined) return say('No plan keeps all limits of this.');
  const change = margin - before;
  const word =
    change === 0 ? 'the same' : change > 0 ? `${money(change)} more than` : `${money(-change)} less than`;
  say(`Margin ${money(margin)}: ${word} as it is saved (${money(before)}).`);
}

/** Beside their cells, or in a list where there is no cell for them. */
function showProblems(own: Json, problems: readonly Problem[]): void {
  const elsewhere = problems.filter(({ pointer, message, remedy }) => {
    const field = fieldOf(own, pointer);
    if (field !== undefined) complain(field, `${message} ${remedy}`, 'document');
    return field === undefined;
  });
  document.querySelector('[data-problems]')?.replaceChildren(
    ...elsewhere.map(({ pointer, message, remedy }) => {
      const line = document.createElement('p');
      line.className = 'problem';
      line.textContent = `${pointer}: ${message} ${remedy}`;
      return line;
    }),
  );
}

async function marginOf(scenario: Members, signal: AbortSignal): Promise<number | undefined> {
  const gap = Number(document.querySelector<HTMLElement>('[data-plant]')?.dataset.gap);
  const { answer } = (await ask('/plan', { scenario, gap }, signal)) as { answer?: { margin?: number } };
  return answer?.margin;
}

async function ask(path: string, question: Json, signal: AbortSignal): Promise<Json> {
  const response = await fetch(path, {
    method: 'POST',
    headers: { 'Content-Type': 'application/json', Prefer: 'wait=60' },
    body: JSON.stringify(question),
    signal,
  });
  return response.json();
}
