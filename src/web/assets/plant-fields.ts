import { cellText } from './plant-cells.js';
import { at, byIds, type Json } from './plant-document.js';

/** The cells of the tables: what they show, and what is wrong beside them. */
export type Field = HTMLInputElement | HTMLSelectElement;

export function allFields(): Field[] {
  return [...document.querySelectorAll<Field>('[data-pointer]')];
}

/** The field whose place a problem is about: its own, or that of a member within it. */
export function fieldOf(own: Json, pointer: string): Field | undefined {
  const named = byIds(own, pointer);
  return allFields().find(({ dataset: { pointer: place = '' } }) => {
    return named === place || named.startsWith(`${place}/`);
  });
}

/** Shows what the document says, and marks what is not saved. */
export function showAll(own: Json, saved: Json): void {
  for (const field of allFields()) {
    const pointer = field.dataset.pointer ?? '';
    const text = cellText(at(own, pointer));
    if (field.dataset.wrong !== 'text') show(field, text);
    field.classList.toggle('changed', text !== cellText(at(saved, pointer)));
  }
}

/** Where nothing is written the first choice holds. */
function show(field: Field, text: string): void {
  if (field instanceof HTMLSelectElement && text === '') field.selectedIndex = 0;
  else field.value = text;
}

/**
 * @param from 'text': of what was typed, which the document does not hold; 'document': found in the document
 */
export function complain(field: Field, text: string, from: 'text' | 'document'): void {
  field.setAttribute('aria-invalid', 'true');
  field.dataset.wrong = from;
  const known = field.parentElement?.querySelector<HTMLElement>('.problem');
  const note = known ?? document.createElement('div');
  note.className = 'problem';
  note.id = `wrong${(field.dataset.pointer ?? '').replaceAll(/[^\w]/g, '-')}`;
  note.textContent = text;
  field.setAttribute('aria-describedby', note.id);
  field.after(note);
}

export function calm(field: Field): void {
  field.removeAttribute('aria-invalid');
  field.removeAttribute('aria-describedby');
  delete field.dataset.wrong;
  field.parentElement?.querySelector('.problem')?.remove();
}

/** Takes away what was found in the document before. */
export function calmAll(): void {
  for (const field of allFields()) if (field.dataset.wrong === 'document') calm(field);
}

/** In the line at the foot of the page. */
export function say(text: string): void {
  const state = document.querySelector<HTMLElement>('[data-state]');
  if (state !== null) state.hidden = false;
  const place = document.querySelector('[data-said]');
  if (place !== null) place.textContent = text;
}
