import { cellText, pastedCells, readCell } from './plant-cells.js';
import { at, freeId, keysOf, listOf, type Members, withMember, withoutEntry } from './plant-document.js';
import { change, editing } from './plant-editing.js';
import { calm, complain, type Field, say } from './plant-fields.js';

export type CellText = readonly [field: Field, text: string];

/** Sets several cells as one change. */
export function setAll(cells: readonly CellText[]): void {
  if (cells.length === 0) return;
  let { own } = editing;
  for (const [field, text] of cells) {
    field.value = text;
    const value = readCell(text, field.dataset.kind);
    if (value === 'no figure') {
      complain(field, NO_FIGURE, 'text');
      continue;
    }
    calm(field);
    own = withMember(own, keysOf(field.dataset.pointer ?? ''), value) as Members;
  }
  change(own, () => {
    for (const [field] of cells) calm(field);
  });
}

const NO_FIGURE = 'Write a number, such as 1234.5; with another basis 1.6 / tire; by month 210; 215; 220.';

/** Cells of a spreadsheet fall into the rows and columns from where the cursor is on. */
export function paste(event: ClipboardEvent): void {
  const start = (event.target as Element).closest<HTMLInputElement>('.grid input[data-pointer]');
  const text = event.clipboardData?.getData('text/plain') ?? '';
  if (start === null || !/[\t\n]/.test(text.trimEnd())) return;
  event.preventDefault();
  const shown = start
    .closest('table')
    ?.querySelectorAll<HTMLTableRowElement>('tbody:not([hidden]) > tr:first-child');
  // A cell whose figures stand below it keeps its place in the row.
  const rows = [...(shown ?? [])].map((row) =>
    [...row.cells].map((cell) => cell.querySelector<Field>(':scope > [data-pointer]')),
  );
  const top = rows.findIndex((row) => row.includes(start));
  const left = rows[top]?.indexOf(start) ?? 0;
  const cells = pastedCells(text).flatMap((line, i) =>
    line.map((cell, j) => [rows[top + i]?.[left + j] ?? undefined, cell] as const),
  );
  const fitting = cells.flatMap(([field, cell]): CellText[] => (field === undefined ? [] : [[field, cell]]));
  setAll(fitting);
  const leftOut = cells.filter(([field, cell]) => field === undefined && cell !== '').length;
  if (leftOut > 0) say(`${leftOut} of ${cells.length} pasted cells found no place in the table.`);
}

/** Puts a copy of an entry under it, with an id of its own. */
export function copy(entry: HTMLElement): void {
  const pointer = entry.dataset.entry ?? '';
  const list = at(editing.own, listOf(pointer)) as Members[];
  const original = at(editing.own, pointer) as Members;
  if (original.id === undefined) return;
  const id = freeId(String(original.id), list);
  const own = withMember(editing.own, keysOf(listOf(pointer)), [
    ...list,
    { ...structuredClone(original), id, name: `${String(original.name ?? original.id)}, copy` },
  ]) as Members;
  const row = entry.cloneNode(true) as HTMLElement;
  const renamed = `${listOf(pointer)}/${id}`;
  row.dataset.entry = renamed;
  for (const field of row.querySelectorAll<Field>('[data-pointer]')) {
    calm(field);
    field.dataset.pointer = renamed + (field.dataset.pointer ?? '').slice(pointer.length);
    field.value = cellText(at(own, field.dataset.pointer));
  }
  entry.parentElement?.append(row);
  row.querySelector<HTMLElement>('input')?.focus();
  change(own, () => row.remove());
}

export function remove(entry: HTMLElement): void {
  entry.hidden = true;
  change(withoutEntry(editing.own, entry.dataset.entry ?? '') as Members, () => {
    entry.hidden = false;
  });
}
