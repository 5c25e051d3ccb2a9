/** The answer ends here: stopped by the user, or no engine gave an answer that holds. */
export class Unfinished extends Error {
  override readonly name = 'Unfinished';
  constructor(readonly reason: 'cancelled' | 'no certified answer') {
    super(reason);
  }
}

/** @throws Unfinished where the user asked to stop. */
export function goOn(cancelled: (() => boolean) | undefined): void {
  if (cancelled?.() === true) throw new Unfinished('cancelled');
}
