import type { CallbackType, HighsCallbackMap } from 'highs';
import type { SolveLimits, SolveProgress } from '../port.js';

const SECONDS_BETWEEN_REPORTS = 0.1;

type InterruptChannels = Readonly<{ simplexInterrupt: 1; ipmInterrupt: 2; mipInterrupt: 6 }>;

interface Checkpoint {
  readonly data: { readonly mip_primal_bound?: number; readonly mip_dual_bound?: number };
  interrupt(): void;
}

/** The caller's limits during one solve: the time that is left, the cancel signal, the reports. */
export class Watch {
  private readonly started = performance.now();
  private reported = Number.NEGATIVE_INFINITY;
  private thrown: { readonly error: unknown } | undefined;
  cancelled = false;

  /** `costFactor` turns the engine's objective back into the program's. */
  constructor(
    private readonly limits: SolveLimits,
    private readonly costFactor: number,
  ) {}

  secondsLeft(): number | undefined {
    if (this.limits.seconds === undefined) return undefined;
    return Math.max(0, this.limits.seconds - this.elapsed());
  }

  /** Hooks for one run; undefined when the caller wants neither cancel nor progress, which costs nothing. */
  callbacks(channels: InterruptChannels): HighsCallbackMap | undefined {
    if (this.limits.cancelled === undefined && this.limits.onProgress === undefined) return undefined;
    const onSimplex = (event: Checkpoint): undefined => this.poll(event);
    const onMip = (event: Checkpoint): undefined => {
      this.poll(event);
      this.report(event);
    };
    const map: Partial<Record<CallbackType, (event: Checkpoint) => undefined>> = {
      [channels.simplexInterrupt]: onSimplex,
      [channels.ipmInterrupt]: onSimplex,
      [channels.mipInterrupt]: onMip,
    };
    return map as HighsCallbackMap;
  }

  /** Throws on what a callback of the caller's threw: it must not unwind through the WebAssembly. */
  rethrow(): void {
    if (this.thrown !== undefined) throw this.thrown.error;
  }

  /** Asks the caller, once it has said yes it stays so. */
  isCancelled(): boolean {
    this.cancelled ||= this.limits.cancelled?.() === true;
    return this.cancelled;
  }

  private poll(event: Checkpoint): undefined {
    try {
      this.isCancelled();
    } catch (error) {
      this.thrown ??= { error };
    }
    if (this.cancelled || this.thrown !== undefined) event.interrupt();
  }

  private report(event: Checkpoint): void {
    const { onProgress } = this.limits;
    const seconds = this.elapsed();
    if (onProgress === undefined || seconds - this.reported < SECONDS_BETWEEN_REPORTS) return;
    const bound = event.data.mip_dual_bound;
    if (bound === undefined || !Number.isFinite(bound)) return;
    this.reported = seconds;
    try {
      onProgress(progress(seconds, bound / this.costFactor, event.data.mip_primal_bound, this.costFactor));
    } catch (error) {
      this.thrown ??= { error };
      event.interrupt();
    }
  }

  private elapsed(): number {
    return (performance.now() - this.started) / 1000;
  }
}

function progress(
  seconds: number,
  bound: number,
  incumbent: number | undefined,
  costFactor: number,
): SolveProgress {
  if (incumbent === undefined || !Number.isFinite(incumbent)) return { seconds, bound };
  const best = incumbent / costFactor;
  if (best === 0) return { seconds, bound, best };
  return { seconds, bound, best, gap: Math.abs(bound - best) / Math.abs(best) };
}
