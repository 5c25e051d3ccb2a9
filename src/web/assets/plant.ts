/**
 * Editing a scenario in its tables: each change is checked at once, shows what it does to the margin, and can be
 * undone.
 */
import type { Members } from './plant-document.js';
import { editing, isChanged, onChanged, undo } from './plant-editing.js';
import { copy, paste, remove, setAll } from './plant-edits.js';
import { say, showAll } from './plant-fields.js';
import { bringScenario, bringTable } from './plant-files.js';
import { judgeSoon } from './plant-judgement.js';
import { save, saveOver } from './plant-saving.js';

const root = document.querySelector<HTMLElement>('[data-plant]');
const address = `/scenarios/${root?.dataset.plant}`;

void begin();

async function begin(): Promise<void> {
  const response = await fetch(address);
  if (!response.ok || root === null) return;
  editing.etag = response.headers.get('ETag') ?? root.dataset.etag ?? '';
  editing.own = (await response.json()) as Members;
  editing.saved = structuredClone(editing.own);
  document.querySelector('[data-without-scripts]')?.remove();
  onChanged(() => {
    showAll(editing.own, editing.saved);
    judgeSoon();
  });
  root.addEventListener('change', onChange);
  root.addEventListener('paste', paste);
  root.addEventListener('click', onClick);
  root.addEventListener('keydown', onKey);
  addEventListener('beforeunload', (event) => {
    if (isChanged()) event.preventDefault();
  });
}

function onChange(event: Event): void {
  const target = event.target as HTMLInputElement;
  if (target.matches('[data-import]')) void bringScenario(target);
  else if (target.matches('[data-csv]')) void bringTable(target);
  else if (target.dataset.pointer !== undefined) setAll([[target, target.value]]);
}

function onClick(event: Event): void {
  const button = (event.target as Element).closest<HTMLButtonElement>('button[data-do]');
  const entry = button?.closest<HTMLElement>('[data-entry]') ?? undefined;
  DEEDS[button?.dataset.do ?? '']?.(entry);
}

type Deed = (entry: HTMLElement | undefined) => void;

const DEEDS: Readonly<Record<string, Deed | undefined>> = {
  save: () => tried(save(address)),
  undo: () => undo(),
  theirs: () => {
    editing.own = editing.saved;
    location.reload();
  },
  mine: () => tried(saveOver(address)),
  copy: (entry) => entry !== undefined && copy(entry),
  remove: (entry) => entry !== undefined && remove(entry),
};

/** Undo by keyboard; what is being typed in a cell is the browser's to undo. */
function onKey(event: KeyboardEvent): void {
  const isUndo = event.key.toLowerCase() === 'z' && (event.ctrlKey || event.metaKey) && !event.shiftKey;
  if (!isUndo || editing.undos.length === 0 || event.target === typedIn) return;
  event.preventDefault();
  undo();
}

/** The cell in which something is typed that is no change yet. */
let typedIn: EventTarget | null = null;
root?.addEventListener('input', ({ target }) => {
  typedIn = target;
});
root?.addEventListener('change', () => {
  typedIn = null;
});

function tried(work: Promise<void>): void {
  void work.catch(() => say('Not saved: the server could not be reached.'));
}
