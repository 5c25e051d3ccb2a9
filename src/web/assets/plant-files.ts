import { csvRows } from './plant-cells.js';
import type { Members } from './plant-document.js';
import { change, editing } from './plant-editing.js';
import { type CellText, setAll } from './plant-edits.js';
import { type Field, say } from './plant-fields.js';

/** A whole scenario from a file, in place of the one that is edited; one undo takes it back. */
export async function bringScenario(input: HTMLInputElement): Promise<void> {
  const text = await chosenText(input);
  if (text === undefined) return;
  let document: unknown;
  try {
    document = JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (error) {
    return say(`That file is no JSON: ${error instanceof Error ? error.message : ''}`);
  }
  if (typeof document !== 'object' || document === null || Array.isArray(document))
    return say('That file is no scenario: it holds no object.');
  change(document as Members);
  editing.isUnlike = true;
}

/** A table from a CSV as it is given out here: ids in the first column, members' paths in the head. */
export async function bringTable(input: HTMLInputElement): Promise<void> {
  const text = await chosenText(input);
  const [head, ...rows] = text === undefined ? [] : csvRows(text);
  if (head === undefined) return text === undefined ? undefined : say('That file holds no table.');
  const list = input.dataset.csv ?? '';
  const cells: CellText[] = [];
  const unknown: string[] = [];
  for (const [id, ...own] of rows) {
    for (const [i, written] of own.entries()) {
      const cell = written.replace(GUARD, '');
      const pointer = `${list}/${id}/${head[i + 1]}`;
      const field = document.querySelector<Field>(`[data-pointer="${CSS.escape(pointer)}"]`);
      if (field === null && cell !== '') unknown.push(`${id}, ${head[i + 1]}`);
      else if (field !== null && field.value !== cell) cells.push([field, cell]);
    }
  }
  setAll(cells);
  if (unknown.length > 0)
    say(`${cells.length} cells changed; no place for ${unknown.length}, such as ${unknown[0]}.`);
  else if (cells.length === 0) say('The file says what the table says: nothing changed.');
}

/** What keeps a spreadsheet from taking a text for a formula, as the tables are given out with it. */
const GUARD = /^'(?=[=+@\t\r\n]|-(?!\d))/;

/** The same file may be chosen again. */
async function chosenText(input: HTMLInputElement): Promise<string | undefined> {
  const text = await input.files?.[0]?.text();
  input.value = '';
  return text;
}
