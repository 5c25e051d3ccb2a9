import type { Model } from 'highs';
import type { SolveLimits } from '../port.js';
import type { NumericalSettings } from './settings.js';

/** Seconds that stand for no time limit: the package takes finite numbers only. */
const NO_LIMIT = 1e9;

/** The options of one model; only what differs from the last run is handed to the engine. */
export class RunOptions {
  private settings: NumericalSettings | undefined;
  private seconds: number | undefined;

  constructor(private readonly model: Model) {}

  use(settings: NumericalSettings): void {
    if (settings === this.settings) return;
    const old = new Map<string, number | string>(Object.entries(this.settings ?? {}));
    const changes = Object.entries(settings).filter(([name, value]) => old.get(name) !== value);
    this.model.options.set(Object.fromEntries(changes));
    this.settings = settings;
  }

  limitTime(seconds: number = NO_LIMIT): void {
    // The engine's clock runs over all its runs; without a limit it need not be set back.
    if (seconds === NO_LIMIT && this.seconds === NO_LIMIT) return;
    this.model.options.set('time_limit', seconds);
    this.model.zeroAllClocks();
    this.seconds = seconds;
  }

  /** `costFactor` turns the program's objective into the engine's. */
  allowGap({ gap = 0, absoluteGap = 0 }: SolveLimits, costFactor: number): void {
    this.model.options.set('mip_rel_gap', gap);
    this.model.options.set('mip_abs_gap', absoluteGap * costFactor);
  }
}
