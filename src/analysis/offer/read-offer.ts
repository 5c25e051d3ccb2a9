import type { Problem } from '../../issue/problem.js';
import type { Plant } from '../../plant/plant.js';
import { readPlantDocument } from '../../plant/read-plant.js';
import { toIdPointer } from '../../scenario/pointer.js';
import type { Contract, Scenario } from '../../scenario/schema/scenario.js';

/** A scenario into which an offer is signed; the offer is the contract of that id. */
export interface SignedOffer {
  readonly offer: Contract;
  /** With the offer among its contracts. */
  readonly scenario: Scenario;
  readonly plant: Plant;
}

export type OfferReading =
  | ({ readonly ok: true } & SignedOffer)
  | { readonly ok: false; readonly problems: readonly Problem[] };

export type OffersReading =
  /** All signed; `offers` their ids. */
  | { readonly ok: true; readonly offers: readonly string[]; readonly plant: Plant }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** Where the offer stands: the id of one in the scenario's `offers`, or a document of its own. */
export type OfferSource = { readonly id: string } | { readonly document: unknown };

/**
 * Signs an offer into a scenario and checks the whole like any scenario. The pointer of a problem within an
 * offer that has a document of its own points into that document. Nothing is thrown, the documents stay as
 * they are.
 */
export function readOffer(document: unknown, source: OfferSource): OfferReading {
  if (!isRecord(document)) return unsigned(readPlantDocument(document));
  const offers = listOf(document.offers);
  const position = 'id' in source ? offers.findIndex((each) => isRecord(each) && each.id === source.id) : -1;
  if ('id' in source && position < 0) {
    return refused('/offers', 'unknown reference', `The scenario has no offer '${source.id}'`, idsOf(offers));
  }
  const offer = 'id' in source ? offers[position] : source.document;
  const id = isRecord(offer) ? offer.id : undefined;
  const contracts = listOf(document.contracts);
  if (contracts.some((each) => isRecord(each) && each.id === id && id !== undefined)) {
    const pointer = 'id' in source ? `/offers/${position}/id` : '/id';
    return refused(
      pointer,
      'duplicate id',
      `A contract has the id '${String(id)}' already`,
      'Give the offer an id of its own',
    );
  }
  const reading = readPlantDocument({
    ...document,
    contracts: [...contracts, offer],
    ...(document.offers === undefined
      ? {}
      : { offers: offers.filter((each) => !isRecord(each) || each.id !== id) }),
    ...uncertaintyOf(document, id),
  });
  if (reading.ok) {
    const { scenario, plant } = reading;
    return { ok: true, offer: scenario.contracts?.at(-1) as Contract, scenario, plant };
  }
  const from = `/contracts/${contracts.length}`;
  const to = 'id' in source ? `/offers/${position}` : '';
  return {
    ok: false,
    problems: reading.problems.map((problem) => {
      const { pointer } = problem;
      const isOwn = pointer === from || pointer.startsWith(`${from}/`);
      return isOwn ? { ...problem, pointer: `${to}${pointer.slice(from.length)}` } : problem;
    }),
  };
}

/** Signs several offers, one after the other, into one scenario; the first that cannot be is told. @throws RangeError on none */
export function readOffers(document: unknown, sources: readonly OfferSource[]): OffersReading {
  let signed: SignedOffer | undefined;
  const offers: string[] = [];
  for (const source of sources) {
    const reading = readOffer(signed?.scenario ?? document, source);
    if (!reading.ok) return reading;
    offers.push(reading.offer.id);
    signed = reading;
  }
  if (signed === undefined) throw new RangeError('no offers');
  return { ok: true, offers, plant: signed.plant };
}

/** What is uncertain of the offer is so of the contract. */
function uncertaintyOf(document: Readonly<Record<string, unknown>>, id: unknown): { uncertainty?: unknown } {
  const { uncertainty } = document;
  if (!Array.isArray(uncertainty)) return {};
  const from = `/offers/${String(id)}/`;
  return {
    uncertainty: uncertainty.map((entry: unknown) => {
      if (!isRecord(entry) || typeof entry.target !== 'string') return entry;
      const target = toIdPointer(document, entry.target) ?? entry.target;
      return target.startsWith(from)
        ? { ...entry, target: `/contracts/${String(id)}/${target.slice(from.length)}` }
        : entry;
    }),
  };
}

function unsigned(reading: ReturnType<typeof readPlantDocument>): OfferReading {
  if (!reading.ok) return reading;
  throw new TypeError('a scenario is an object');
}

function idsOf(offers: readonly unknown[]): string {
  const ids = offers.flatMap((each) => (isRecord(each) && typeof each.id === 'string' ? [each.id] : []));
  return ids.length === 0 ? 'Add it to `offers`, or name its file' : `Name one of ${ids.join(', ')}`;
}

function refused(pointer: string, code: Problem['code'], message: string, remedy: string): OfferReading {
  return { ok: false, problems: [{ pointer, code, message: `${message}.`, remedy: `${remedy}.` }] };
}

function listOf(value: unknown): readonly unknown[] {
  return Array.isArray(value) ? value : [];
}

function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
