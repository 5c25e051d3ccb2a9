/** What a command's end means to whoever called it. */
export const EXIT = {
  answered: 0,
  badInput: 2,
  noFeasiblePlan: 3,
  noCertifiedAnswer: 4,
} as const;

export type ExitCode = (typeof EXIT)[keyof typeof EXIT];

/** Wrong arguments, or a file that cannot be read or written: the message is for the user. */
export class UsageError extends Error {
  override readonly name = 'UsageError';
}
