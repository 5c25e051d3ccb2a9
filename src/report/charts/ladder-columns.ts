import type { LadderFigures, LadderMass } from '../ladder-figures.js';
import { sumOf } from '../sum.js';
import type { WayOn } from './ladder-chart.js';

/** A rung, the by-products together, or the waste together, as the ladder draws them. */
export interface LadderColumn {
  readonly name: string;
  /** Mass of whole tire along the ladder. */
  readonly from: number;
  readonly to: number;
  /** Money by mass. */
  readonly height: number;
  readonly fee: number;
  readonly kind: 'rung' | 'credit' | 'waste';
  readonly wayOn?: WayOn;
}

/** Room between the rungs and what stands apart, as a share of all. */
const GAP = 0.025;

/** What the ladder draws, from coarse to fine, then what stands apart. */
export function ladderColumns(figures: LadderFigures, waysOn: ReadonlyMap<string, WayOn>): LadderColumn[] {
  const columns: LadderColumn[] = [];
  let at = 0;
  for (const rung of figures.rungs) {
    const wayOn = waysOn.get(rung.material);
    columns.push({
      name: rung.name,
      from: at,
      to: at + rung.tires,
      height: rung.net / rung.tires,
      fee: rung.tippingFee / rung.tires,
      kind: 'rung',
      ...(wayOn === undefined ? {} : { wayOn }),
    });
    at += rung.tires;
  }
  at += at * GAP;
  for (const [kind, parts] of [
    ['credit', figures.byProducts],
    ['waste', figures.waste],
  ] as const) {
    const part = together(parts, kind);
    if (part === undefined) continue;
    const height = (kind === 'waste' ? -part.money : part.money) / part.mass;
    columns.push({ name: part.name, from: at, to: at + part.mass, height, fee: 0, kind });
    at += part.mass;
  }
  return columns;
}

/** The parts of a column that are drawn apart: from one amount of money by mass to another. */
export function columnParts({
  kind,
  height,
  fee,
}: LadderColumn): { low: number; high: number; name: string }[] {
  if (kind !== 'rung') return [{ low: 0, high: height, name: kind }];
  if (height >= fee) {
    return [
      { low: 0, high: fee, name: 'gate' },
      { low: fee, high: height, name: 'earned' },
    ];
  }
  return [
    { low: Math.min(0, height), high: Math.max(0, height), name: 'gate' },
    { low: height, high: fee, name: 'lost' },
  ];
}

function together(parts: readonly LadderMass[], kind: 'credit' | 'waste'): LadderMass | undefined {
  if (parts.length <= 1) return parts[0];
  const name = kind === 'waste' ? `Waste, ${parts.length} kinds` : `By-products, ${parts.length} kinds`;
  return { name, mass: sumOf(parts, ({ mass }) => mass), money: sumOf(parts, ({ money }) => money) };
}
