/**
 * Forms that ask for other figures: the page's result is fetched and put in place, without leaving the page. Where
 * this script does not run, the same forms load the page anew.
 */
import { showFieldProblems } from './field-problems.js';

const RESULT = 'result';
let latest = 0;
/** What is asked for just now; another question takes its place. */
let asking = new AbortController();

for (const form of document.querySelectorAll<HTMLFormElement>('form[data-redraw]')) prepare(form);

function prepare(form: HTMLFormElement): void {
  const number = form.querySelector<HTMLSelectElement>('select[name=number]');
  number?.addEventListener('change', () => suggest(form, number));
  form.addEventListener('submit', (event) => {
    event.preventDefault();
    void redraw(addressOf(form));
  });
  if (form.dataset.redraw === 'change') {
    form.addEventListener('change', () => void redraw(addressOf(form)));
  }
}

/** The number as it is, and its unit, beside the choice. */
function suggest(form: HTMLFormElement, number: HTMLSelectElement): void {
  const { value = '', unit = '' } = number.selectedOptions[0]?.dataset ?? {};
  const own = Number(value);
  for (const [name, factor] of [
    ['value', 1],
    ['from', 0.5],
    ['to', 1.5],
  ] as const) {
    const input = form.querySelector<HTMLInputElement>(`input[name=${name}]`);
    if (input !== null) input.value = value === '' ? '' : String(Number((own * factor).toPrecision(12)));
  }
  for (const place of form.querySelectorAll('[data-unit]')) place.textContent = unit;
}

function addressOf(form: HTMLFormElement): string {
  const fields = new URLSearchParams();
  for (const [key, value] of new FormData(form)) {
    if (typeof value === 'string' && value !== '') fields.append(key, value);
  }
  return `${location.pathname}?${fields}`;
}

async function redraw(address: string, isBack = false): Promise<void> {
  latest += 1;
  const turn = latest;
  asking.abort();
  asking = new AbortController();
  const { signal } = asking;
  const main = document.querySelector('main');
  main?.setAttribute('aria-busy', 'true');
  say('Working it out …');
  try {
    const response = await fetch(address, { headers: { Accept: 'text/html' }, signal });
    const page = new DOMParser().parseFromString(await response.text(), 'text/html');
    if (turn !== latest) return;
    const [old, fresh] = [document.getElementById(RESULT), page.getElementById(RESULT)];
    if (old === null || fresh === null) return location.assign(address);
    old.replaceWith(fresh);
    keepTried(page);
    showFieldProblems(page);
    void fetchLater(signal);
    if (!isBack) history.pushState(undefined, '', address);
    say(fresh.querySelector('.answer, .problems')?.textContent ?? '');
  } catch {
    if (turn === latest) location.assign(address);
  } finally {
    if (turn === latest) main?.removeAttribute('aria-busy');
  }
}

/** What is being tried stays in the form, so that the next number comes on top. */
function keepTried(page: Document): void {
  const [form, fresh] = [document, page].map((from) => from.querySelector('form[data-redraw]'));
  if (form === null || fresh === null) return;
  for (const input of form.querySelectorAll('input[type=hidden][name=set]')) input.remove();
  form.append(...fresh.querySelectorAll('input[type=hidden][name=set]'));
}

/** For those who do not see the page change. */
function say(text: string): void {
  const waiting = document.querySelector('.waiting');
  if (waiting !== null) waiting.textContent = text.replace(/\s+/g, ' ').trim().slice(0, 300);
}

document.addEventListener('click', (event) => {
  const link = (event.target as Element).closest<HTMLAnchorElement>(`#${RESULT} a[href^="?"]`);
  if (link === null || event.ctrlKey || event.metaKey || event.shiftKey || event.button !== 0) return;
  event.preventDefault();
  void redraw(link.href);
});

/** Milliseconds after the figures, in which another change may come, before what takes longer is asked for. */
const LATER = 150;

/** What takes longer to work out comes after the rest; parts of the same name take each other's place. */
async function fetchLater(signal: AbortSignal): Promise<void> {
  const place = document.querySelector<HTMLElement>('[data-later]');
  const address = place?.dataset.later;
  if (place === null || address === undefined) return;
  const kept = [...place.childNodes];
  const waiting = document.createElement('p');
  waiting.className = 'note';
  waiting.textContent = 'More is being worked out …';
  place.replaceChildren(waiting);
  await new Promise((resolve) => setTimeout(resolve, LATER));
  if (signal.aborted) return;
  const text = await fetch(address, { headers: { Accept: 'text/html' }, signal })
    .then((response) => response.text())
    .catch(() => '');
  if (signal.aborted || !place.isConnected) return;
  const page = new DOMParser().parseFromString(text, 'text/html');
  const parts = page.querySelectorAll<HTMLElement>('[data-part]');
  if (parts.length === 0) return place.replaceChildren(...kept);
  for (const fresh of parts) {
    document.querySelector(`#${RESULT} [data-part=${fresh.dataset.part}]`)?.replaceWith(fresh);
  }
}

void fetchLater(asking.signal);

addEventListener('popstate', () => void redraw(location.href, true));
