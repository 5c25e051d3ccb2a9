/** Kinds of rows of the program that a document names: limits. */
export const LIMIT_KINDS = [
  'balance',
  'machine',
  'crew',
  'attendance',
  'connected',
  'peak',
  'contractMinimum',
  'contractMaximum',
  'called',
  'notBoth',
  'missedOnlyWhenShort',
  'termMinimum',
  'termMaximum',
  'quality',
  'store',
  'disposal',
] as const;

/** Kinds of columns: decisions. */
export const DECISION_KINDS = [
  'receive',
  'run',
  'stock',
  'sell',
  'deliver',
  'missed',
  'missedTerm',
  'short',
  'dispose',
  'attended',
  'shifts',
  'open',
  'on',
] as const;
