import type { Plan } from '../../planning/plan.js';
import type { Plant } from '../../plant/plant.js';
import { type Activity, activitiesOf } from './activities.js';

export const EFFECTS = ['price', 'volume', 'yield', 'cost', 'new business', 'lost business'] as const;

export type Effect = (typeof EFFECTS)[number];

/**
 * What each effect is, for whoever reads the bridge. q quantity, r money by quantity (the price, of outlets and
 * contracts less freight and packing), 1 before, 2 after.
 */
export const EFFECT_DEFINITIONS: Readonly<Record<Effect, string>> = {
  price:
    'net price at the new volume, Σ q₂·(r₂ − r₁) over the feeds, outlets and contracts that are dealt with in both; the net price r is less freight and packing',
  volume:
    'volume at the old net price, Σ (q₂ − q₁)·r₁ over the same, and at the old cost over what drives the other costs (energy, peaks, hours, tonnes), less what the yield effect takes of it',
  yield:
    'Σ (yield₂ − yield₁)·run₂·worth₁ over the outputs of the steps that both have, at the worth of the material before',
  cost: 'Σ q₂·(r₂ − r₁) over the cost lines, and the whole of a line that only one of them has a quantity for',
  'new business': 'net receipts of feeds, outlets and contracts that are dealt with only after',
  'lost business': 'less the net receipts of those that are dealt with only before',
};

/** From one margin to another, by effects that add up. Plain money over the horizon. */
export interface Bridge {
  readonly from: number;
  readonly to: number;
  readonly effects: readonly {
    readonly effect: Effect;
    readonly amount: number;
    readonly parts: readonly BridgePart[];
  }[];
}

export interface BridgePart {
  readonly line: Activity['line'] | 'step';
  readonly id: string;
  readonly amount: number;
}

export interface BridgeSide {
  readonly plant: Plant;
  readonly plan: Plan;
}

/** Mass below which nothing is dealt with. */
const NOTHING = 1e-6;

/** @throws RangeError where the two are in different units or currencies. */
export function bridge(before: BridgeSide, after: BridgeSide): Bridge {
  const [a, b] = [before.plant.units, after.plant.units];
  if (a.mass !== b.mass || a.currency !== b.currency) {
    throw new RangeError(
      `the one is in ${a.currency} and ${a.mass}, the other in ${b.currency} and ${b.mass}`,
    );
  }
  const parts = new Map<Effect, BridgePart[]>(EFFECTS.map((effect) => [effect, []]));
  const put = (effect: Effect, part: BridgePart) => {
    if (part.amount !== 0) parts.get(effect)?.push(part);
  };
  const first = byKey(activitiesOf(before.plant, before.plan));
  const second = byKey(activitiesOf(after.plant, after.plan));
  for (const key of new Set([...first.keys(), ...second.keys()])) {
    spread(first.get(key), second.get(key), put);
  }
  for (const part of yieldParts(before, after)) {
    put('yield', part);
    put('volume', { ...part, amount: -part.amount });
  }
  return {
    from: before.plan.statement.margin,
    to: after.plan.statement.margin,
    effects: EFFECTS.map((effect) => {
      const own = parts.get(effect) ?? [];
      return {
        effect,
        amount: own.reduce((sum, { amount }) => sum + amount, 0),
        parts: [...own].sort((x, y) => Math.abs(y.amount) - Math.abs(x.amount)),
      };
    }),
  };
}

type Put = (effect: Effect, part: BridgePart) => void;

/** q₂r₂ − q₁r₁ = q₂(r₂ − r₁) + (q₂ − q₁)r₁, with new and lost business and lines without a quantity apart. */
function spread(a: Activity | undefined, b: Activity | undefined, put: Put): void {
  const one = (a ?? b) as Activity;
  const { line, id, side } = one;
  const [before, after] = [a?.amount ?? 0, b?.amount ?? 0];
  const [q1, q2] = [a?.quantity ?? 0, b?.quantity ?? 0];
  const [isBefore, isAfter] = [Math.abs(q1) > NOTHING, Math.abs(q2) > NOTHING];
  if (!isBefore || !isAfter) {
    if (side === 'cost') put('cost', { line, id, amount: after - before });
    else {
      put('new business', { line, id, amount: after });
      put('lost business', { line, id, amount: -before });
    }
    return;
  }
  const volume = (q2 - q1) * (before / q1);
  put(side === 'cost' ? 'cost' : 'price', { line, id, amount: after - before - volume });
  put('volume', { line, id, amount: volume });
}

/** By step: what it makes more or less of each output from what it takes in after, at the worth before. */
function yieldParts(before: BridgeSide, after: BridgeSide): BridgePart[] {
  return after.plant.steps.flatMap((step): BridgePart[] => {
    const old = before.plant.steps.find(({ id }) => id === step.id);
    if (old === undefined) return [];
    const shareOf = (list: typeof step.yields, material: string) =>
      list.find((output) => output.material === material)?.share ?? 0;
    const materials = [...new Set([...step.yields, ...old.yields].map(({ material }) => material))];
    const amount = after.plan.months.reduce((sum, month, t) => {
      const mass = month.steps.find((use) => use.step === step.id)?.mass ?? 0;
      return materials.reduce((inner, material) => {
        const more = shareOf(step.yields, material) - shareOf(old.yields, material);
        if (more === 0) return inner;
        return inner + more * mass * worthOf(before.plan, material, t);
      }, sum);
    }, 0);
    return amount === 0 ? [] : [{ line: 'step', id: step.id, amount }];
  });
}

/** In the same month of the plan before; in its last one beyond it; 0 for a material that it does not know. */
function worthOf(plan: Plan, material: string, month: number): number {
  const worth = plan.worth.find((each) => each.material === material)?.byMonth;
  return worth === undefined ? 0 : (worth[Math.min(month, worth.length - 1)] ?? 0);
}

function byKey(activities: readonly Activity[]): Map<string, Activity> {
  return new Map(activities.map((activity) => [activity.key, activity]));
}
