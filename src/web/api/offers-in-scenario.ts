import { canonicalText } from '../../host/digest.js';
import { etagOf } from '../storage/plain-file.js';
import type { Expected } from '../storage/stored-scenario.js';
import { Refusal } from './refusal.js';
import { isObject } from './schema.js';
import type { ApiServices } from './services.js';
import { goodScenario } from './stored-scenario-of.js';
import { changedSince } from './written-response.js';

/** One offer as it stands in a scenario. */
interface Offer {
  readonly id: string;
  readonly text: string;
  readonly etag: string;
}

/** Reads, changes, checks and writes a scenario's offers, with nobody writing between. @throws Refusal */
export async function changeOffers(
  { library, runner }: ApiServices,
  name: string,
  change: (offers: readonly unknown[]) => readonly unknown[],
): Promise<void> {
  const outcome = await library.folder.update(name, async (file) => {
    const { text } = goodScenario(await library.judge(name, file));
    const document = parsed(text);
    const offers = Array.isArray(document.offers) ? document.offers : [];
    const changed = `${JSON.stringify({ ...document, offers: change(offers) }, undefined, 2)}\n`;
    const { problems } = await runner.check({ text: changed });
    if (problems.length > 0) {
      throw new Refusal('invalid-scenario', 'The scenario has problems with this change.', { problems });
    }
    const bytes = new TextEncoder().encode(changed);
    const { mostBytes } = library.folder;
    if (bytes.byteLength > mostBytes) {
      throw new Refusal('too-large', `With this change the scenario has more than ${mostBytes} bytes.`);
    }
    return bytes;
  });
  if (outcome?.kind === 'conflict') throw changedSince(outcome.etag);
}

/** The offers of a scenario's document, in its order. */
export function offersOf({ offers }: Readonly<Record<string, unknown>>): Offer[] {
  const list: readonly unknown[] = Array.isArray(offers) ? offers : [];
  return list.filter(isObject).map((offer) => {
    const text = textOf(offer);
    return { id: String(offer.id), text, etag: etagOf(text) };
  });
}

/** The text that an offer's entity tag is of: the same for the same figures, however they are written. */
export function textOf(offer: unknown): string {
  const text = canonicalText(offer);
  if (text === undefined)
    throw new Refusal('malformed', 'A number is beyond what JSON can carry, or text holds half a character.');
  return text;
}

/** Of a text that has passed its checks. */
export function parsed(text: string): Readonly<Record<string, unknown>> {
  return JSON.parse(text.startsWith('\uFEFF') ? text.slice(1) : text);
}

/** @throws Refusal 412 where the tag of what is there is not what the writer expects; undefined: nothing is there */
export function requireExpected(expected: Expected, etag: string | undefined): void {
  if (expected.kind === 'nothing') {
    if (etag !== undefined) throw changedSince(etag);
    return;
  }
  if (etag === undefined || (expected.etags !== 'any' && !expected.etags.includes(etag)))
    throw changedSince(etag);
}

export function noOffer(): Refusal {
  return new Refusal('not-found', 'The scenario has no offer of this id.');
}
