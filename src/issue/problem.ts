/** One thing that is wrong with what the user wrote, as data. */
export interface Problem {
  /** RFC 6901 JSON Pointer to the place; '' is the whole document. */
  readonly pointer: string;
  readonly code: ProblemCode;
  /** What is wrong, in the user's words. */
  readonly message: string;
  /** What to do. */
  readonly remedy: string;
}

export type ProblemCode =
  | 'malformed'
  | 'unknown key'
  | 'missing'
  | 'wrong type'
  | 'out of range'
  | 'unknown format'
  | 'reserved'
  | 'unknown reference'
  | 'duplicate id'
  | 'series length'
  | 'unit needs a figure'
  | 'calendar'
  | 'overlap'
  | 'tiers'
  | 'yields'
  | 'assay'
  | 'circuit'
  | 'contract'
  | 'stock'
  | 'dead end'
  | 'hours'
  | 'conflict';
