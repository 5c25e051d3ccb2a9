import type { ConflictAnswer, ConflictMember, ObviousConflict } from '../../analysis/conflict/conflict.js';
import { briefOf } from '../../analysis/explain/brief-explanation.js';
import type {
  Explanation,
  Firmness,
  RentOverMonths,
  StaffingChange,
  StepAccount,
  WorthAccount,
  WouldTake,
} from '../../analysis/explain/explanation.js';
import type { LimitKey } from '../../analysis/limits/plan-limit.js';
import type { PlannedAnswer, UnansweredAnswer } from '../../analysis/plan-answer.js';
import type { Warning } from '../../issue/warning.js';
import type { Plant } from '../../plant/plant.js';
import { CAUTIONS } from '../cautions.js';
import { withoutInfinities } from '../finite.js';
import { type Names, namesOf } from '../names.js';
import { conflictSentences } from './conflict-sentences.js';
import { firmnessUnit } from './firmness-words.js';
import { limitUnit } from './limit-words.js';
import { explanationSentences } from './sentences.js';

export const EXPLANATION_FORMAT = 'cutpoint-explanation/1';

/** An explanation as one JSON document. No figure is rounded; what has no end is absent. */
export type ExplanationDocument = ExplainedDocument | ConflictDocument | UnexplainedDocument;

interface Head {
  readonly format: typeof EXPLANATION_FORMAT;
  readonly title: string;
  readonly units: Plant['units'];
  readonly horizon: { readonly firstMonth: string; readonly months: number };
  readonly scenarioDigest?: string;
  readonly warnings: readonly Warning[];
  readonly names: Names;
  /** Plain sentences computed from the figures. */
  readonly sentences: readonly string[];
}

export interface ExplainedDocument extends Head {
  readonly status: 'explained';
  /** `whole`: all but `staffing` holds for the staffing of the plan. */
  readonly staffed: 'whole' | 'hourly';
  readonly presentValue: number;
  readonly worth: readonly WorthAccount[];
  readonly steps: readonly Dated<StepAccount>[];
  readonly rents: readonly DocumentRent[];
  readonly rentsOverMonths: readonly DocumentRentOverMonths[];
  readonly bindingWithoutRent: number;
  readonly wouldTake: readonly (Omit<WouldTake, 'what'> & { readonly what: Dated<WouldTake['what']> })[];
  readonly firmness: readonly (Omit<Firmness, 'unit'> & { readonly unit: string })[];
  readonly staffing?: { readonly asked: readonly Dated<StaffingChange>[]; readonly left: number };
  readonly solves: number;
  readonly unanswered: number;
  readonly cautions: readonly string[];
}

export interface ConflictDocument extends Head {
  readonly status: 'infeasible';
  readonly conflict?: readonly DocumentMember[];
  readonly obvious: readonly Dated<ObviousConflict>[];
  readonly repair?: DocumentRepair;
  readonly solves: number;
}

export interface UnexplainedDocument extends Head {
  readonly status: 'no certified answer';
  readonly attempts: UnansweredAnswer['attempts'];
}

/** A record whose month is said by its name. */
export type Dated<T> = T extends { readonly month: number }
  ? Omit<T, 'month'> & { readonly month: string }
  : T;

/** A limit without its month and window, which stand beside it. */
export type DocumentLimit = LimitKey extends infer K
  ? K extends LimitKey
    ? Omit<K, 'month' | 'window'>
    : never
  : never;

interface Place {
  readonly limit: DocumentLimit;
  readonly month: string;
  readonly window?: string;
}

export interface DocumentRent extends Place {
  /** The right side now. */
  readonly amount: number;
  readonly oneMore?: number;
  readonly oneLess?: number;
  /** Money by what. */
  readonly unit: string;
  readonly holdsFrom?: number;
  readonly holdsTo?: number;
  /** What the side that pays brings over its range. */
  readonly reach: number;
  readonly conflict?: readonly Place[];
}

export type DocumentRentOverMonths = Omit<RentOverMonths, 'limit' | 'unit'> &
  Omit<Place, 'month'> & { readonly unit: string };

export interface DocumentMember extends Place {
  readonly amount: number;
  readonly unit: string;
}

export interface DocumentRepair {
  readonly gives: readonly (DocumentMember & { readonly by: number; readonly to: number })[];
  readonly weights: Readonly<Record<string, number>>;
  readonly weight: number;
  /** Of the repaired scenario, not of the one asked about. */
  readonly plan?: { readonly presentValue: number; readonly margin: number; readonly accepted: boolean };
}

export interface ExplanationContext {
  readonly warnings?: readonly Warning[];
  readonly scenarioDigest?: string;
}

export function explainedDocument(
  plant: Plant,
  answer: PlannedAnswer,
  explanation: Explanation,
  context: ExplanationContext = {},
): ExplainedDocument {
  const { staffing, rents, rentsOverMonths, steps, wouldTake, firmness, ...rest } = explanation;
  return withoutInfinities({
    ...headOf(plant, context, explanationSentences(plant, briefOf(plant, explanation))),
    status: 'explained',
    staffed: answer.whole === undefined ? 'hourly' : 'whole',
    presentValue: answer.plan.statement.presentValue,
    ...rest,
    steps: steps.map((each) => dated(plant, each)),
    rents: rents.map(({ limit, unit, conflict, ...figures }) => ({
      ...placeOf(plant, limit),
      ...figures,
      unit: `${plant.units.currency}/${limitUnit(unit, plant.units)}`,
      ...(conflict === undefined ? {} : { conflict: conflict.map((each) => placeOf(plant, each)) }),
    })),
    rentsOverMonths: rentsOverMonths.map(({ limit, unit, ...figures }) => {
      const { month: _, ...place } = placeOf(plant, limit);
      return { ...place, ...figures, unit: `${plant.units.currency}/${limitUnit(unit, plant.units)}` };
    }),
    wouldTake: wouldTake.map((each) => ({ ...each, what: dated(plant, each.what) })),
    firmness: firmness.map((each) => ({ ...each, unit: firmnessUnit(each.unit, plant.units) })),
    ...(staffing === undefined
      ? {}
      : { staffing: { ...staffing, asked: staffing.asked.map((each) => dated(plant, each)) } }),
    cautions: CAUTIONS,
  }) as ExplainedDocument;
}

export function conflictDocument(
  plant: Plant,
  answer: ConflictAnswer,
  context: ExplanationContext = {},
): ConflictDocument {
  const { conflict, obvious, repair, solves } = answer;
  return withoutInfinities({
    ...headOf(plant, context, conflictSentences(plant, answer)),
    status: 'infeasible',
    ...(conflict === undefined ? {} : { conflict: conflict.map((each) => memberOf(plant, each)) }),
    obvious: obvious.map((each) => dated(plant, each)),
    ...(repair === undefined ? {} : { repair: repairOf(plant, repair) }),
    solves,
  }) as ConflictDocument;
}

export function unexplainedDocument(
  plant: Plant,
  attempts: UnansweredAnswer['attempts'],
  context: ExplanationContext = {},
): UnexplainedDocument {
  const sentence = 'No engine gave an answer within the limits that holds, so nothing is explained.';
  return { ...headOf(plant, context, [sentence]), status: 'no certified answer', attempts };
}

function headOf(plant: Plant, context: ExplanationContext, sentences: readonly string[]): Head {
  return {
    format: EXPLANATION_FORMAT,
    title: plant.title,
    units: plant.units,
    horizon: { firstMonth: plant.months[0].label, months: plant.months.length },
    ...(context.scenarioDigest === undefined ? {} : { scenarioDigest: context.scenarioDigest }),
    warnings: context.warnings ?? [],
    names: namesOf(plant),
    sentences,
  };
}

function repairOf(plant: Plant, repair: NonNullable<ConflictAnswer['repair']>): DocumentRepair {
  const { gives, weights, weight, planned } = repair;
  return {
    gives: gives.map(({ by, to, ...member }) => ({ ...memberOf(plant, member), by, to })),
    weights,
    weight,
    ...(planned === undefined
      ? {}
      : {
          plan: {
            presentValue: planned.plan.statement.presentValue,
            margin: planned.plan.statement.margin,
            accepted: planned.plan.certificate.accepted,
          },
        }),
  };
}

function memberOf(plant: Plant, { limit, unit, amount }: ConflictMember): DocumentMember {
  return { ...placeOf(plant, limit), amount, unit: limitUnit(unit, plant.units) };
}

function placeOf(plant: Plant, key: LimitKey): Place {
  const { month, ...noun } = key;
  const label = plant.months[month].label;
  if (!('window' in noun)) return { limit: noun as DocumentLimit, month: label };
  const { window, ...limit } = noun;
  return { limit: limit as DocumentLimit, month: label, window };
}

function dated<T extends { readonly month: number }>(plant: Plant, record: T): Dated<T> {
  return { ...record, month: plant.months[record.month].label } as unknown as Dated<T>;
}
