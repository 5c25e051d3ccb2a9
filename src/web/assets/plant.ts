/**
 * Editing a scenario in its tables: each change is checked at once, shows what it does to the margin, and can be
 * undone; saving names the version that was read, so that nobody is written over unknowingly.
 */
type Json = unknown;
type Members = Record<string, Json>;
type Field = HTMLInputElement | HTMLSelectElement;

const root = document.querySelector<HTMLElement>('[data-plant]');
const state = document.querySelector<HTMLElement>('[data-state]');
const address = `/scenarios/${root?.dataset.plant}`;
const undos: (() => void)[] = [];
let etag = root?.dataset.etag ?? '';
let own: Members = {};
let saved: Members = {};
let before: number | undefined;
let turn = 0;
let timer = 0;

void begin();

async function begin(): Promise<void> {
  const response = await fetch(address);
  if (!response.ok || root === null) return;
  etag = response.headers.get('ETag') ?? etag;
  own = (await response.json()) as Members;
  saved = structuredClone(own);
  document.querySelector('[data-without-scripts]')?.remove();
  root.addEventListener('change', onChange);
  root.addEventListener('paste', onPaste);
  root.addEventListener('click', onClick);
  addEventListener('beforeunload', (event) => {
    if (JSON.stringify(own) !== JSON.stringify(saved)) event.preventDefault();
  });
}

function onChange(event: Event): void {
  const target = event.target as HTMLInputElement;
  if (target.matches('[data-import]')) void importScenario(target);
  else if (target.matches('[data-csv]')) void importTable(target);
  else if (target.dataset.pointer !== undefined) setAll([[target, target.value]]);
}

/** Cells of a spreadsheet fall into the rows and columns from here on. */
function onPaste(event: ClipboardEvent): void {
  const start = (event.target as Element).closest<HTMLInputElement>('.grid input[data-pointer]');
  const text = event.clipboardData?.getData('text/plain') ?? '';
  if (start === null || !/[\t\n]/.test(text.trimEnd())) return;
  event.preventDefault();
  const rows = [...(start.closest('table')?.querySelectorAll('tbody > tr:first-child') ?? [])].map((row) => [
    ...row.querySelectorAll<Field>('[data-pointer]'),
  ]);
  const top = rows.findIndex((row) => row.includes(start));
  const left = rows[top]?.indexOf(start) ?? 0;
  const lines = text.trimEnd().split(/\r?\n/);
  setAll(
    lines.flatMap((line, i) =>
      line.split('\t').flatMap((cell, j): [Field, string][] => {
        const field = rows[top + i]?.[left + j];
        return field === undefined ? [] : [[field, cell.trim()]];
      }),
    ),
  );
}

function onClick(event: Event): void {
  const button = (event.target as Element).closest<HTMLButtonElement>('button[data-do]');
  const entry = button?.closest<HTMLElement>('[data-entry]') ?? undefined;
  switch (button?.dataset.do) {
    case 'save':
      void save(etag);
      break;
    case 'undo':
      undos.pop()?.();
      changed();
      break;
    case 'theirs':
      saved = own;
      location.reload();
      break;
    case 'mine':
      void saveOver();
      break;
    case 'copy':
      if (entry !== undefined) copy(entry);
      break;
    case 'remove':
      if (entry !== undefined) remove(entry);
      break;
  }
}

/** Sets several cells as one change. */
function setAll(cells: readonly (readonly [Field, string])[]): void {
  const earlier = own;
  const texts = cells.map(([field]) => [field, cellText(at(own, field.dataset.pointer ?? ''))] as const);
  for (const [field, text] of cells) {
    field.value = text;
    const value = read(text, field.dataset.kind);
    if (value === 'no figure') {
      complain(
        field,
        'Write a number, such as 1234.5; with another basis 1.6 / tire; by month 210; 215; 220.',
      );
      continue;
    }
    calm(field);
    own = withMember(own, keysOf(field.dataset.pointer ?? ''), value) as Members;
  }
  undos.push(() => {
    own = earlier;
    for (const [field, text] of texts) {
      field.value = text;
      calm(field);
    }
  });
  changed();
}

function copy(entry: HTMLElement): void {
  const pointer = entry.dataset.entry ?? '';
  const keys = keysOf(pointer);
  const list = at(own, pointer.slice(0, pointer.lastIndexOf('/'))) as Members[];
  const original = at(own, pointer) as Members;
  if (original.id === undefined) return;
  const id = freeId(String(original.id), list);
  const earlier = own;
  own = withMember(own, keys.slice(0, -1), [
    ...list,
    { ...structuredClone(original), id, name: `${String(original.name ?? original.id)}, copy` },
  ]) as Members;
  const row = entry.cloneNode(true) as HTMLElement;
  const renamed = `${pointer.slice(0, pointer.lastIndexOf('/'))}/${id}`;
  row.dataset.entry = renamed;
  for (const field of row.querySelectorAll<Field>('[data-pointer]')) {
    field.dataset.pointer = renamed + (field.dataset.pointer ?? '').slice(pointer.length);
    field.value = cellText(at(own, field.dataset.pointer));
  }
  entry.parentElement?.append(row);
  row.querySelector<HTMLElement>('input')?.focus();
  undos.push(() => {
    own = earlier;
    row.remove();
  });
  changed();
}

function remove(entry: HTMLElement): void {
  const pointer = entry.dataset.entry ?? '';
  const keys = keysOf(pointer);
  const list = at(own, pointer.slice(0, pointer.lastIndexOf('/'))) as Members[];
  const earlier = own;
  own = withMember(
    own,
    keys.slice(0, -1),
    list.filter((each, i) => each !== at(own, pointer) && String(i) !== keys.at(-1)),
  ) as Members;
  entry.hidden = true;
  undos.push(() => {
    own = earlier;
    entry.hidden = false;
  });
  changed();
}

/** After every change: marks, checks, and a little later what it does. */
function changed(): void {
  for (const field of document.querySelectorAll<Field>('[data-pointer]')) {
    const pointer = field.dataset.pointer ?? '';
    field.classList.toggle('changed', cellText(at(own, pointer)) !== cellText(at(saved, pointer)));
  }
  if (state !== null) state.hidden = false;
  say('Checking …');
  clearTimeout(timer);
  timer = window.setTimeout(() => void check(), 120);
}

async function check(): Promise<void> {
  turn += 1;
  const mine = turn;
  const answer = (await ask('/check', { scenario: own })) as {
    problems: { pointer: string; message: string; remedy: string }[];
  };
  if (mine !== turn) return;
  for (const field of document.querySelectorAll<Field>('[aria-invalid][data-pointer]')) {
    if (read(field.value, field.dataset.kind) !== 'no figure') calm(field);
  }
  const elsewhere = answer.problems.filter(({ pointer, message, remedy }) => {
    const field = fieldOf(pointer);
    if (field !== undefined) complain(field, `${message} ${remedy}`);
    return field === undefined;
  });
  const place = document.querySelector('[data-problems]');
  place?.replaceChildren(
    ...elsewhere.map(({ pointer, message, remedy }) => {
      const line = document.createElement('p');
      line.className = 'problem';
      line.textContent = `${pointer}: ${message} ${remedy}`;
      return line;
    }),
  );
  if (answer.problems.length > 0)
    return say(`${answer.problems.length} to put right; it cannot be saved like this.`);
  say('Planning …');
  before ??= await marginOf(saved);
  const margin = await marginOf(own);
  if (mine !== turn) return;
  if (margin === undefined || before === undefined) return say('No plan keeps all limits of this.');
  const change = margin - before;
  const word =
    change === 0 ? 'as much as' : change > 0 ? `${money(change)} more than` : `${money(-change)} less than`;
  say(`Margin ${money(margin)}: ${word} as it is saved (${money(before)}).`);
}

async function marginOf(scenario: Members): Promise<number | undefined> {
  const { answer } = (await ask('/plan', { scenario, gap: Number(root?.dataset.gap) })) as {
    answer?: { margin?: number };
  };
  return answer?.margin;
}

async function save(version: string): Promise<void> {
  const response = await fetch(address, {
    method: 'PUT',
    headers: { 'Content-Type': 'application/json', 'If-Match': version },
    body: `${JSON.stringify(own, undefined, 2)}\n`,
  });
  const isConflict = response.status === 412;
  for (const choice of ['theirs', 'mine']) {
    const button = document.querySelector<HTMLElement>(`[data-do=${choice}]`);
    if (button !== null) button.hidden = !isConflict;
  }
  if (isConflict)
    return say('Somebody else has saved another version since you opened this page. Nothing was written.');
  if (!response.ok) {
    const { detail = '' } = (await response.json()) as { detail?: string };
    return say(`Not saved. ${detail}`);
  }
  etag = response.headers.get('ETag') ?? etag;
  saved = structuredClone(own);
  before = undefined;
  undos.length = 0;
  for (const field of document.querySelectorAll('.changed')) field.classList.remove('changed');
  say('Saved.');
}

/** Saves over what somebody else saved, whose version is kept among the earlier ones. */
async function saveOver(): Promise<void> {
  const theirs = await fetch(address);
  await save(theirs.headers.get('ETag') ?? '');
}

async function importScenario(input: HTMLInputElement): Promise<void> {
  const text = await input.files?.[0]?.text();
  if (text === undefined) return;
  const earlier = own;
  try {
    own = JSON.parse(text) as Members;
  } catch {
    return say('That file is no JSON.');
  }
  undos.push(() => {
    own = earlier;
  });
  for (const field of document.querySelectorAll<Field>('[data-pointer]'))
    field.value = cellText(at(own, field.dataset.pointer ?? ''));
  changed();
}

/** A CSV as it is given out here: ids in the first column, members' paths in the head. */
async function importTable(input: HTMLInputElement): Promise<void> {
  const text = await input.files?.[0]?.text();
  const [head, ...rows] = text === undefined ? [] : csvRows(text);
  if (head === undefined) return;
  setAll(
    rows.flatMap(([id, ...cells]) =>
      cells.flatMap((cell, i): [Field, string][] => {
        const field = document.querySelector<Field>(
          `[data-pointer="${input.dataset.csv}/${CSS.escape(id)}/${head[i + 1]}"]`,
        );
        return field === null || field.value === cell ? [] : [[field, cell]];
      }),
    ),
  );
  input.value = '';
}

function csvRows(text: string): string[][] {
  const rows: string[][] = [[]];
  const cell = /(?:"((?:[^"]|"")*)"|([^",\r\n]*))(,|\r?\n|$)/gy;
  for (
    let match = cell.exec(text);
    match !== null && cell.lastIndex <= text.length;
    match = cell.exec(text)
  ) {
    rows[rows.length - 1].push(match[1]?.replaceAll('""', '"') ?? match[2] ?? '');
    if (match[3] === '') break;
    if (match[3] !== ',') rows.push([]);
  }
  return rows.filter((row) => row.length > 1);
}

/** The field whose place a problem is about: its own, or that of a member within it. */
function fieldOf(pointer: string): Field | undefined {
  const named = byIds(pointer);
  return [...document.querySelectorAll<Field>('[data-pointer]')]
    .filter(({ dataset: { pointer: place = '' } }) => named === place || named.startsWith(`${place}/`))
    .at(0);
}

/** A pointer with ids in place of positions. */
function byIds(pointer: string): string {
  let value: Json = own;
  return keysOf(pointer)
    .map((key) => {
      const id = Array.isArray(value) ? (value[Number(key)] as Members | undefined)?.id : undefined;
      value = step(value, key);
      return `/${typeof id === 'string' ? id : key}`;
    })
    .join('');
}

function complain(field: Field, text: string): void {
  field.setAttribute('aria-invalid', 'true');
  field.title = text;
  const note = field.parentElement?.querySelector('.problem') ?? document.createElement('div');
  note.className = 'problem';
  note.textContent = text;
  field.after(note);
}

function calm(field: Field): void {
  field.removeAttribute('aria-invalid');
  field.removeAttribute('title');
  field.parentElement?.querySelector('.problem')?.remove();
}

function say(text: string): void {
  if (state !== null) state.hidden = false;
  const place = document.querySelector('[data-said]');
  if (place !== null) place.textContent = text;
}

async function ask(path: string, question: Json): Promise<Json> {
  const response = await fetch(path, {
    method: 'POST',
    headers: { 'Content-Type': 'application/json', Prefer: 'wait=60' },
    body: JSON.stringify(question),
  });
  return response.json();
}

/** What a cell says: nothing, a text, a figure, a rate, one of these for each month. */
function read(text: string, kind: string | undefined): Json | 'no figure' {
  const plain = text.trim();
  if (plain === '') return undefined;
  if (kind === 'text') return plain;
  if (plain.includes(';')) {
    const parts = plain.split(';').map((part) => read(part, kind));
    return parts.some((part) => part === 'no figure' || part === undefined) ? 'no figure' : parts;
  }
  const [, figure, per] = /^([^/]*?)\s*(?:\/\s*(.+))?$/.exec(plain) ?? [];
  const digits = (figure ?? '').replace(/,(?=\d{3}(\D|$))/g, '');
  if (!/^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(digits)) return 'no figure';
  return per === undefined ? Number(digits) : { amount: Number(digits), per };
}

function cellText(value: Json): string {
  if (value === undefined || value === null) return '';
  if (Array.isArray(value)) return value.map(cellText).join('; ');
  if (typeof value !== 'object') return String(value);
  const { amount, per } = value as Members;
  return amount === undefined ? '' : `${String(amount)} / ${String(per)}`;
}

function keysOf(pointer: string): string[] {
  return pointer.split('/').slice(1);
}

function at(value: Json, pointer: string): Json {
  return keysOf(pointer).reduce(step, value);
}

function step(value: Json, key: string): Json {
  if (Array.isArray(value)) return value.find((each) => (each as Members)?.id === key) ?? value[Number(key)];
  return (value as Members | undefined)?.[key];
}

/** A document with one member other than it was; undefined takes it away. */
function withMember(value: Json, [key, ...rest]: readonly string[], member: Json): Json {
  if (key === undefined) return member;
  if (Array.isArray(value)) {
    const position = value.findIndex((each, i) => (each as Members)?.id === key || String(i) === key);
    return value.map((each, i) => (i === position ? withMember(each, rest, member) : each));
  }
  const members = (value ?? {}) as Members;
  const inner = withMember(members[key], rest, member);
  const { [key]: _, ...others } = members;
  const isEmpty =
    inner === undefined ||
    (rest.length > 0 &&
      typeof inner === 'object' &&
      inner !== null &&
      !Array.isArray(inner) &&
      Object.keys(inner).length === 0);
  return isEmpty ? others : { ...members, [key]: inner };
}

function freeId(id: string, list: readonly Members[]): string {
  for (let i = 2; ; i += 1) {
    const candidate = `${id.slice(0, 36)}-${i}`;
    if (!list.some((each) => each.id === candidate)) return candidate;
  }
}

/** A point before decimals, commas between thousands. */
function money(amount: number): string {
  const [whole, decimals] = Math.abs(amount).toFixed(Number(root?.dataset.digits)).split('.');
  const grouped = whole.replace(/\B(?=(\d{3})+$)/g, ',');
  return `${amount < 0 ? '-' : ''}${decimals === undefined ? grouped : `${grouped}.${decimals}`} ${root?.dataset.currency}`;
}
