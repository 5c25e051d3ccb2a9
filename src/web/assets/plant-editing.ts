import type { Members } from './plant-document.js';

/** The scenario as it is edited, and as it is saved. */
export interface Editing {
  own: Members;
  saved: Members;
  /** Of the saved version. */
  etag: string;
  /** Whether it holds entries for which the page has no rows. */
  isUnlike: boolean;
  readonly undos: (() => void)[];
}

export const editing: Editing = { own: {}, saved: {}, etag: '', isUnlike: false, undos: [] };

const listeners: (() => void)[] = [];

/** Calls a listener after every change, and after each that is taken back. */
export function onChanged(listener: () => void): void {
  listeners.push(listener);
}

/**
 * Makes one change, which one undo takes back.
 *
 * @param back what it takes besides to show the page as it was
 */
export function change(own: Members, back: () => void = () => {}): void {
  const { own: earlier, isUnlike } = editing;
  editing.own = own;
  editing.undos.push(() => {
    editing.own = earlier;
    editing.isUnlike = isUnlike;
    back();
  });
  changed();
}

export function undo(): void {
  editing.undos.pop()?.();
  changed();
}

export function isChanged(): boolean {
  return JSON.stringify(editing.own) !== JSON.stringify(editing.saved);
}

function changed(): void {
  for (const listener of listeners) listener();
}
