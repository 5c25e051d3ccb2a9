import { readlinkSync } from 'node:fs';
import { getPriority, setPriority } from 'node:os';
import { basename } from 'node:path';

/** Steps of niceness below the others: on a busy core they get about ten times the share of this thread. */
const STEPS = 10;

const LOWEST = 19;

/**
 * Lets other threads go before the one that calls this, where the system has a priority for each thread: on Linux,
 * where `/proc/thread-self` leads to the thread's own number (proc(5), setpriority(2)). Elsewhere nothing happens.
 */
export function lowerOwnPriority(): void {
  if (process.platform !== 'linux') return;
  try {
    const thread = Number(basename(readlinkSync('/proc/thread-self')));
    setPriority(thread, Math.min(LOWEST, getPriority(thread) + STEPS));
  } catch {
    // A system that hides its threads, or forbids this: every thread then has the same share.
  }
}
