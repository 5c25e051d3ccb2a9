import type { PlanAnswer, PlannedAnswer, WholeNumberGap } from '../analysis/plan-answer.js';
import type { Warning } from '../issue/warning.js';
import type { ColumnKey, RowKey } from '../planning/keys.js';
import type { Plan } from '../planning/plan.js';
import type { Plant } from '../plant/plant.js';
import type { Certificate, CertificateCondition, Violation } from '../program/certificate.js';
import { bunchedLoadWarnings } from './bunched-load.js';
import { CAUTIONS } from './cautions.js';
import { coarseToFine } from './coarse-to-fine.js';
import { withoutInfinities } from './finite.js';
import { type Names, namesOf } from './names.js';
import { type PlanTotal, planTotal } from './plan-total.js';

export const PLAN_FORMAT = 'cutpoint-plan/1';

/**
 * An answered or unanswered request for a plan as one JSON document: all that the printed plan and the CSV
 * files are made from. Masses, money, hours, kWh and kW as in Plan; no figure is rounded, none is infinite.
 */
export type PlanDocument = PlannedDocument | InfeasibleDocument | UnansweredDocument;

export interface DocumentHead {
  readonly format: typeof PLAN_FORMAT;
  readonly title: string;
  readonly units: { readonly mass: 'tonne' | 'short ton'; readonly currency: string };
  readonly horizon: { readonly firstMonth: string; readonly months: number };
  readonly discountRate: number;
  /** Of the scenario's text, so that a plan can be told to belong to it: 'sha256:' and 64 hexadecimal digits. */
  readonly scenarioDigest?: string;
  readonly warnings: readonly Warning[];
}

export interface PlannedDocument extends DocumentHead, Omit<Plan, 'certificate'> {
  /** `optimal`: proved within the tolerance or the gap asked for; `stopped`: the best plan when it was stopped. */
  readonly status: 'optimal' | 'stopped';
  readonly presentValue: number;
  /** The plain sum. */
  readonly margin: number;
  /** margin / mass received; absent where nothing is received. */
  readonly marginByMass?: number;
  /** Published figures that the scenario takes instead of its own. */
  readonly starterFigures: Plant['starterFigures'];
  readonly names: Names;
  readonly total: PlanTotal;
  readonly certificate: DocumentCertificate;
  readonly wholeNumbers?: DocumentWholeNumbers;
  /** Why the plan is as it is, in a few sentences; absent where it was not asked. */
  readonly why?: readonly string[];
  readonly engine: { readonly name: string; readonly version: string; readonly solves: number };
  readonly cautions: readonly string[];
}

export interface InfeasibleDocument extends DocumentHead {
  readonly status: 'infeasible';
  readonly reasons: readonly string[];
}

export interface UnansweredDocument extends DocumentHead {
  readonly status: 'no certified answer';
  readonly reasons: readonly string[];
  readonly attempts: readonly { readonly engine: string; readonly outcome: string }[];
}

export interface DocumentCertificate {
  readonly accepted: boolean;
  readonly tolerance: number;
  readonly scale: number;
  readonly objective: number;
  readonly bound?: number;
  readonly gap?: number;
  readonly primal: DocumentViolation;
  readonly dual?: DocumentViolation;
  readonly complementarity?: DocumentViolation;
  readonly integrality: DocumentViolation;
  readonly failures: readonly CertificateCondition[];
}

export interface DocumentViolation {
  readonly amount: number;
  /** The limit or the decision with the worst violation. */
  readonly at?: DocumentPlace;
}

/** A row or column of the program in the user's nouns, its month by name. */
export interface DocumentPlace {
  readonly kind: RowKey['kind'] | ColumnKey['kind'];
  readonly month?: string;
  readonly feed?: string;
  readonly step?: string;
  readonly window?: string;
  readonly material?: string;
  readonly machine?: string;
  readonly crew?: string;
  readonly outlet?: string;
  readonly tier?: number;
  readonly contract?: string;
  readonly measure?: string;
  readonly limit?: 'min' | 'max';
  readonly disposal?: string;
  readonly store?: string;
}

/** Gaps relative to the statement's scale; bounds as present values. Absent where nothing was proved or claimed. */
export type DocumentWholeNumbers = Partial<WholeNumberGap>;

export interface DocumentContext {
  readonly warnings?: readonly Warning[];
  readonly scenarioDigest?: string;
  /** Sentences on why the plan is as it is, or on why there is none. */
  readonly why?: readonly string[];
}

/** The document of an answer. */
export function planDocument(plant: Plant, answer: PlanAnswer, context: DocumentContext = {}): PlanDocument {
  const head = headOf(plant, context);
  switch (answer.status) {
    case 'infeasible':
      return { ...head, status: answer.status, reasons: [INFEASIBLE, ...(context.why ?? [])] };
    case 'no certified answer':
      return { ...head, status: answer.status, reasons: [UNCERTIFIED], attempts: answer.attempts };
    default:
      return withoutInfinities({
        ...plannedDocument(head, plant, answer),
        ...(context.why === undefined ? {} : { why: context.why }),
      });
  }
}

const INFEASIBLE =
  'No plan meets all the limits of this scenario together: committed tonnes, contract minimums without a shortfall charge, stocks, stores, disposal limits, machine hours and crews.';
const UNCERTIFIED =
  'No engine gave an answer within the limits that holds against the figures of the scenario, so no plan is shown.';

function headOf(plant: Plant, context: DocumentContext): DocumentHead {
  return {
    format: PLAN_FORMAT,
    title: plant.title,
    units: plant.units,
    horizon: { firstMonth: plant.months[0].label, months: plant.months.length },
    discountRate: plant.discountRate,
    ...(context.scenarioDigest === undefined ? {} : { scenarioDigest: context.scenarioDigest }),
    warnings: context.warnings ?? [],
  };
}

function plannedDocument(head: DocumentHead, plant: Plant, answer: PlannedAnswer): PlannedDocument {
  const { plan } = answer;
  const total = planTotal(plant, plan);
  const { margin, presentValue } = plan.statement;
  return {
    ...head,
    warnings: [...head.warnings, ...bunchedLoadWarnings(plant, plan)],
    status: answer.status,
    presentValue,
    margin,
    ...(total.received > 0 ? { marginByMass: margin / total.received } : {}),
    starterFigures: plant.starterFigures,
    names: namesOf(plant),
    statement: plan.statement,
    total,
    months: plan.months,
    cash: plan.cash,
    worth: plan.worth,
    massBalance: plan.massBalance,
    ladder: coarseToFine(plant, plan.ladder),
    certificate: certificateOf(plant, plan.certificate),
    ...(answer.whole === undefined ? {} : { wholeNumbers: answer.whole }),
    engine: { ...answer.engine, solves: answer.solves },
    cautions: CAUTIONS,
  };
}

export function certificateOf(
  plant: Plant,
  certificate: Certificate<RowKey, ColumnKey>,
): DocumentCertificate {
  const { primal, dual, complementarity, integrality, ...rest } = certificate;
  return {
    ...rest,
    primal: violationOf(plant, primal),
    ...(dual === undefined ? {} : { dual: violationOf(plant, dual) }),
    ...(complementarity === undefined ? {} : { complementarity: violationOf(plant, complementarity) }),
    integrality: violationOf(plant, integrality),
  };
}

function violationOf(plant: Plant, { amount, row, column }: Violation<RowKey, ColumnKey>): DocumentViolation {
  const key = row ?? column;
  if (key === undefined) return { amount };
  if (!('month' in key)) return { amount, at: key };
  return { amount, at: { ...key, month: plant.months[key.month].label } };
}
