import { editing } from './plant-editing.js';
import { allFields, say } from './plant-fields.js';
import { forgetSavedMargin } from './plant-judgement.js';

/** Saves over the version that was read, and no other: nobody is written over unknowingly. */
export async function save(address: string): Promise<void> {
  if (allFields().some((field) => field.dataset.wrong === 'text'))
    return say('Not saved: some cells are no figures; they are marked.');
  const { own, etag } = editing;
  const response = await fetch(address, {
    method: 'PUT',
    headers: { 'Content-Type': 'application/json', 'If-Match': etag },
    body: `${JSON.stringify(own, undefined, 2)}\n`,
  });
  const isConflict = response.status === 412;
  for (const choice of ['theirs', 'mine']) {
    const button = document.querySelector<HTMLElement>(`[data-do=${choice}]`);
    if (button !== null) button.hidden = !isConflict;
  }
  if (isConflict)
    return say('Somebody else has saved another version since you opened this page. Nothing was written.');
  if (!response.ok) return say(`Not saved. ${await reasonOf(response)}`);
  editing.etag = response.headers.get('ETag') ?? etag;
  editing.saved = structuredClone(own);
  editing.undos.length = 0;
  forgetSavedMargin();
  if (editing.isUnlike) return location.reload();
  for (const field of allFields()) field.classList.remove('changed');
  say('Saved.');
}

/** Saves over what somebody else saved, whose version is kept among the earlier ones. */
export async function saveOver(address: string): Promise<void> {
  const theirs = await fetch(address);
  editing.etag = theirs.headers.get('ETag') ?? '';
  await save(address);
}

async function reasonOf(response: Response): Promise<string> {
  try {
    const { detail = '' } = (await response.json()) as { detail?: string };
    return detail;
  } catch {
    return '';
  }
}
