import { type Bridge, EFFECT_DEFINITIONS, type Effect } from '../../analysis/comparison/bridge.js';
import type { Displacement, MachineMove } from '../../analysis/offer/displacement.js';
import type { PlanMove } from '../../analysis/variant/plan-quantities.js';

export interface DisplacedDocument {
  readonly bridge: Bridge;
  readonly definitions: Readonly<Record<Effect, string>>;
  readonly moves: readonly PlanMove[];
  readonly machines: readonly MachineMove[];
  readonly months: readonly {
    readonly month: string;
    readonly before: number;
    readonly after: number;
    readonly effects: readonly { readonly effect: Effect; readonly amount: number }[];
    readonly moves: readonly PlanMove[];
    readonly machines: readonly MachineMove[];
  }[];
}

export function displacedDocument({ bridge, moves, machines, months }: Displacement): DisplacedDocument {
  return {
    bridge,
    definitions: EFFECT_DEFINITIONS,
    moves,
    machines,
    months: months.map((month) => ({
      month: month.month,
      before: month.bridge.from,
      after: month.bridge.to,
      effects: month.bridge.effects.map(({ effect, amount }) => ({ effect, amount })),
      moves: month.moves,
      machines: month.machines,
    })),
  };
}
