import type { LimitKey, LimitKind, LimitUnit } from '../limits/plan-limit.js';
import type { PlannedAnswer } from '../plan-answer.js';

/** Why there is no plan, and what would have to give. */
export interface ConflictAnswer {
  /**
   * Promises and limits that cannot all hold, with the balances, yields and hours of the plant; without any one of
   * them the others can. Absent where the solves did not certify.
   */
  readonly conflict?: readonly ConflictMember[];
  /** Said directly, where it takes no solve to see. */
  readonly obvious: readonly ObviousConflict[];
  readonly repair?: Repair;
  readonly solves: number;
}

export interface ConflictMember {
  readonly limit: LimitKey;
  readonly unit: LimitUnit;
  readonly amount: number;
}

/** How much of which limits gives way at least, at the weights; of equal ones that with the best plan. */
export interface Repair {
  readonly gives: readonly (ConflictMember & {
    /** In the limit's unit; `to` is what is left of it. */
    readonly by: number;
    readonly to: number;
  })[];
  readonly weights: RepairWeights;
  /** Σ weight · by */
  readonly weight: number;
  /** The plan of the repaired scenario, certified against it; absent where it was not reached. */
  readonly planned?: PlannedAnswer;
}

/** What a unit of each kind of limit weighs when it gives way. */
export type RepairWeights = Readonly<Record<LimitKind, number>>;

export type ObviousConflict =
  | {
      /** A contract asks for more in a month than feeds and stock can bring or the steps that make it can run. */
      readonly kind: 'minimum above capacity';
      readonly contract: string;
      readonly month: number;
      readonly asked: number;
      readonly atMost: number;
    }
  | {
      /** Tires that must be taken, by the end of a month, beyond what the machines can work off and rooms can hold. */
      readonly kind: 'committed above machines and room';
      readonly material: string;
      readonly month: number;
      readonly committed: number;
      readonly atMost: number;
    }
  | {
      /** Waste that committed tires leave, by the end of a month, beyond what can be disposed of, sold or held. */
      readonly kind: 'waste without room';
      readonly material: string;
      readonly month: number;
      readonly made: number;
      readonly atMost: number;
    };
