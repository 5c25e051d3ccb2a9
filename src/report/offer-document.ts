import { type Bridge, EFFECT_DEFINITIONS, type Effect } from '../analysis/comparison/bridge.js';
import type { ConflictMember } from '../analysis/conflict/conflict.js';
import type { LimitKey, LimitUnit } from '../analysis/limits/plan-limit.js';
import type { Bottleneck } from '../analysis/offer/bottlenecks.js';
import type { Counting } from '../analysis/offer/counting.js';
import type { DisplacedByVolume } from '../analysis/offer/displaced-by-volume.js';
import type { Displacement, MachineMove } from '../analysis/offer/displacement.js';
import type { DrawnGain, GainSample, UncertainGain } from '../analysis/offer/gain-under-uncertainty.js';
import type {
  BreakEvenAnswer,
  CallAnswer,
  Gain,
  JudgedOffer,
  OfferAnswer,
  OfferSolves,
  VerdictKind,
  VerdictReason,
} from '../analysis/offer/offer-answer.js';
import type { TermWorth } from '../analysis/offer/offer-terms.js';
import { flatPrice, priceFor, quoteFor } from '../analysis/offer/quote.js';
import type { SignedOffer } from '../analysis/offer/read-offer.js';
import type { Limit } from '../analysis/sweep/feasible-range.js';
import type { PlanMove } from '../analysis/variant/plan-quantities.js';
import type { ColumnKey, RowKey } from '../planning/keys.js';
import type { Plant } from '../plant/plant.js';
import { CAUTIONS } from './cautions.js';
import { withoutInfinities } from './finite.js';
import { type Names, namesOf } from './names.js';
import { certificateOf, type DocumentCertificate, type DocumentPlace } from './plan-document.js';

export const OFFER_FORMAT = 'cutpoint-offer/1';

/** A judged offer as one JSON document. Money is present value unless it says margin; prices in the offer's own unit. */
export type OfferDocument = JudgedDocument | UnjudgedDocument;

export interface OfferHead {
  readonly format: typeof OFFER_FORMAT;
  readonly title: string;
  readonly units: { readonly mass: 'tonne' | 'short ton'; readonly currency: string };
  readonly offer: { readonly id: string; readonly name: string; readonly buyer: string };
}

export interface UnjudgedDocument extends OfferHead {
  readonly status: 'infeasible' | 'no certified answer' | 'cancelled';
}

export interface JudgedDocument extends OfferHead {
  readonly status: 'judged';
  readonly verdict: VerdictKind;
  readonly above?: number;
  readonly upTo?: number;
  readonly reasons: readonly VerdictReason[];
  /** Gain, present value, that signing was asked to leave. */
  readonly askedMargin: number;
  readonly gain?: Gain;
  readonly breakEven: BreakEvenAnswer;
  readonly alone: JudgedOffer['alone'];
  readonly calls: readonly CallAnswer[];
  readonly ladder?: readonly LadderEntry[];
  readonly quote?: QuoteDocument;
  /** Where the tonnes of a firm volume come from, at the breaks of the ladder. */
  readonly displacedByVolume?: DisplacedByVolume;
  /** Where it cannot be served: the share of all its volumes that can be. */
  readonly servedShare?: number;
  /** And promises and limits that cannot all hold; without any one of them the others can. */
  readonly conflict?: readonly DocumentConflict[];
  readonly displaced?: DisplacedDocument;
  readonly terms: readonly TermWorth[];
  readonly uncertain?: DrawnDocument | Exclude<UncertainGain, DrawnGain | { readonly status: 'problems' }>;
  readonly certificate: { readonly without?: DocumentCertificate; readonly with?: DocumentCertificate };
  /** Whole shifts and windows as they are, or in parts; absent where there are none. */
  readonly counting?: Counting;
  /** The same of ladder, quotes, terms, calls and each material's price alone. */
  readonly detailCounting?: Counting;
  readonly names: Names;
  readonly solves: OfferSolves;
  readonly cautions: readonly string[];
}

/** The draws' gains in their order, null where a draw has none. */
export type DrawnDocument = Omit<DrawnGain, 'kept' | 'remade'> &
  Readonly<
    Record<'kept' | 'remade', Omit<GainSample, 'gains'> & { readonly gains: readonly (number | null)[] }>
  >;

/** From one break to the next: up to `monthlyMin` a full month, firm. */
export interface LadderEntry {
  readonly monthlyMin: number;
  /** For the whole volume; absent where a floor or ceiling keeps the price from bringing it. */
  readonly breakEven?: number;
  /** Of one mass unit more just below `monthlyMin`. */
  readonly marginal?: number;
  /** The break-even as one price by mass unit, the same every month. */
  readonly flatPrice: number;
  /** Present value that leaves the plant as well off. */
  readonly receipts: number;
  /** What is used up where this stretch begins. */
  readonly bottlenecks: readonly DocumentLimit[];
}

export interface QuoteDocument {
  readonly exact: boolean;
  /** The unit of breakEven and marginal: the offer's own, or by mass unit. */
  readonly unit: { readonly kind: 'price' | 'base' | 'factor'; readonly per?: string };
  readonly largest: { readonly volume: number; readonly limits: readonly DocumentLimit[] };
  /** For the volumes that the offer itself names, with the asked margin. */
  readonly prices: readonly {
    readonly volume: number;
    readonly price?: number;
    readonly flatPrice: number;
  }[];
}

/** A limit, or an outlet or contract to which nothing is left to give. */
export interface DocumentLimit {
  readonly kind: 'limit' | 'nothing left';
  readonly at: DocumentPlace;
  readonly months: readonly string[];
}

/** A promise or limit of a conflict, its month by name. */
export type DocumentConflict = Omit<LimitKey, 'month'> & {
  readonly month: string;
  readonly unit: LimitUnit;
  readonly amount: number;
};

export interface DisplacedDocument {
  readonly bridge: Bridge;
  readonly definitions: Readonly<Record<Effect, string>>;
  readonly moves: readonly PlanMove[];
  readonly machines: readonly MachineMove[];
  readonly months: readonly {
    readonly month: string;
    readonly before: number;
    readonly after: number;
    readonly effects: readonly { readonly effect: Effect; readonly amount: number }[];
    readonly moves: readonly PlanMove[];
    readonly machines: readonly MachineMove[];
  }[];
}

/** The document of an answer. `volumes`: a full month's, for which a price is quoted. */
export function offerDocument(
  { plant, offer }: SignedOffer,
  answer: OfferAnswer,
  volumes: readonly number[],
  uncertain?: UncertainGain,
): OfferDocument {
  const head: OfferHead = {
    format: OFFER_FORMAT,
    title: plant.title,
    units: plant.units,
    offer: { id: offer.id, name: offer.name ?? offer.id, buyer: offer.buyer },
  };
  if (answer.status !== 'judged') return { ...head, status: answer.status };
  return withoutInfinities(judgedDocument(head, plant, answer, volumes, uncertain));
}

function judgedDocument(
  head: OfferHead,
  plant: Plant,
  answer: JudgedOffer,
  volumes: readonly number[],
  uncertain: UncertainGain | undefined,
): JudgedDocument {
  const { verdict, gain, quote, servedShare, conflict, displaced, without, signed } = answer;
  const { kind, ...verdictParts } = verdict;
  return {
    ...head,
    status: 'judged',
    verdict: kind,
    ...verdictParts,
    askedMargin: answer.margin,
    ...(gain === undefined ? {} : { gain }),
    breakEven: answer.breakEven,
    alone: answer.alone,
    calls: answer.calls,
    ...(quote === undefined ? {} : quoteDocument(plant, answer, quote, volumes)),
    ...(servedShare === undefined ? {} : { servedShare }),
    ...(conflict === undefined ? {} : { conflict: conflict.map((member) => conflictOf(plant, member)) }),
    ...(displaced === undefined ? {} : { displaced: displacedDocument(displaced) }),
    terms: answer.terms,
    ...(uncertain === undefined || uncertain.status === 'problems'
      ? {}
      : { uncertain: drawnDocument(uncertain) }),
    certificate: {
      ...(without === undefined ? {} : { without: certificateOf(plant, without.certificate) }),
      ...(signed === undefined ? {} : { with: certificateOf(plant, signed.certificate) }),
    },
    ...(answer.hasWhole ? { counting: answer.counting, detailCounting: 'in parts' as const } : {}),
    names: namesOf(plant),
    solves: answer.solves,
    cautions: CAUTIONS,
  };
}

function quoteDocument(
  plant: Plant,
  answer: JudgedOffer,
  { ladder, unit, displaced }: NonNullable<JudgedOffer['quote']>,
  volumes: readonly number[],
): Pick<JudgedDocument, 'ladder' | 'quote' | 'displacedByVolume'> {
  const { parameter } = unit;
  const entries = ladder.rungs.map(({ to, receiptsTo, slope, bottlenecks }): LadderEntry => {
    const breakEven = priceFor(unit, receiptsTo / to);
    const marginal = priceFor(unit, slope);
    return {
      monthlyMin: to,
      ...(breakEven === undefined ? {} : { breakEven }),
      ...(marginal === undefined ? {} : { marginal }),
      flatPrice: flatPrice(unit, receiptsTo / to),
      receipts: receiptsTo,
      bottlenecks: bottlenecks.map((each) => bottleneckOf(plant, each)),
    };
  });
  return {
    ladder: entries,
    displacedByVolume: displaced,
    quote: {
      exact: ladder.exact,
      unit:
        parameter === undefined
          ? { kind: 'price', per: plant.units.mass }
          : { kind: parameter.kind, ...(parameter.per === undefined ? {} : { per: parameter.per }) },
      largest: {
        volume: ladder.largest.volume,
        limits: limitsOf(plant, ladder.largest.limits, answer.offer),
      },
      prices: volumes.flatMap((volume) => {
        const quoted = quoteFor(ladder, unit, volume, answer.margin);
        return quoted === undefined ? [] : [{ volume, ...quoted }];
      }),
    },
  };
}

function displacedDocument({ bridge, moves, machines, months }: Displacement): DisplacedDocument {
  return {
    bridge,
    definitions: EFFECT_DEFINITIONS,
    moves,
    machines,
    months: months.map((month) => ({
      month: month.month,
      before: month.bridge.from,
      after: month.bridge.to,
      effects: month.bridge.effects.map(({ effect, amount }) => ({ effect, amount })),
      moves: month.moves,
      machines: month.machines,
    })),
  };
}

function drawnDocument(
  uncertain: Exclude<UncertainGain, { readonly status: 'problems' }>,
): NonNullable<JudgedDocument['uncertain']> {
  if (!('remade' in uncertain)) return uncertain;
  const sample = ({ gains, ...rest }: GainSample) => ({ ...rest, gains: gains.map((gain) => gain ?? null) });
  return { ...uncertain, kept: sample(uncertain.kept), remade: sample(uncertain.remade) };
}

function conflictOf(plant: Plant, { limit, unit, amount }: ConflictMember): DocumentConflict {
  return { ...limit, month: plant.months[limit.month].label, unit, amount };
}

function bottleneckOf(plant: Plant, { kind, of, months }: Bottleneck): DocumentLimit {
  return { kind, at: placeOf(of), months: months.map((month) => plant.months[month].label) };
}

/** Rows that no one set: what comes in goes out, machines need their crews. */
const FOLLOWS: ReadonlySet<string> = new Set(['balance', 'crew', 'peak']);

/** One entry a limit, with its months; not the volume itself, which is the offer's own row. */
function limitsOf(plant: Plant, limits: readonly Limit[], offer: string): DocumentLimit[] {
  const groups = new Map<string, { at: DocumentPlace; months: string[] }>();
  for (const limit of limits) {
    const key = limit.kind === 'row' ? limit.row : limit.column;
    if (FOLLOWS.has(key.kind) || (key.kind === 'called' && key.contract === offer)) continue;
    const at = placeOf(key);
    const name = JSON.stringify(at);
    const group = groups.get(name) ?? { at, months: [] };
    if ('month' in key) group.months.push(plant.months[key.month].label);
    groups.set(name, group);
  }
  return [...groups.values()].map((group) => ({ kind: 'limit', ...group }));
}

function placeOf(key: RowKey | ColumnKey): DocumentPlace {
  const { month: _, ...place } = { month: 0, ...key };
  return place;
}
