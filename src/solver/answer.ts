import type { Certificate } from '../program/certificate.js';
import type { EngineAnswer, EngineName } from './port.js';

/**
 * What the solver says of a program. Only `solved`, and the point of `stopped`, carry a plan, and then its
 * certificate was accepted. `uncertified`: no engine gave an answer that holds; never show one.
 */
export type SolverAnswer<RowKey = unknown, ColumnKey = unknown> =
  | ({ readonly kind: 'solved' } & Certified<RowKey, ColumnKey> & Tried<RowKey, ColumnKey>)
  | ({ readonly kind: 'infeasible'; readonly engine: EngineName } & Tried<RowKey, ColumnKey>)
  | ({ readonly kind: 'unbounded'; readonly engine: EngineName } & Tried<RowKey, ColumnKey>)
  | ({
      readonly kind: 'stopped';
      readonly reason: 'time limit' | 'cancelled';
      /** The best whole-number point so far, where there is one that holds. */
      readonly best?: Certified<RowKey, ColumnKey>;
    } & Tried<RowKey, ColumnKey>)
  | ({ readonly kind: 'uncertified' } & Tried<RowKey, ColumnKey>);

/** An engine's point and the proof that it holds. With whole numbers the proof rests on the relaxation's duals. */
export interface Certified<RowKey = unknown, ColumnKey = unknown> {
  readonly engine: EngineName;
  readonly answer: EngineAnswer & { readonly primal: Float64Array };
  readonly certificate: Certificate<RowKey, ColumnKey>;
  /** The duals that the proof rests on: of the program, with whole numbers of its relaxation. */
  readonly rowDual: Float64Array;
}

export interface Tried<RowKey = unknown, ColumnKey = unknown> {
  /** One entry an engine, in the order in which they were asked. */
  readonly attempts: readonly Attempt<RowKey, ColumnKey>[];
}

export type Attempt<RowKey = unknown, ColumnKey = unknown> =
  | {
      readonly engine: EngineName;
      readonly outcome: 'certified' | 'infeasible' | 'unbounded' | 'time limit' | 'cancelled';
    }
  | {
      readonly engine: EngineName;
      readonly outcome: 'uncertified';
      readonly certificate: Certificate<RowKey, ColumnKey>;
    }
  | { readonly engine: EngineName; readonly outcome: 'failed'; readonly detail: string };
