import type { ColumnKey } from '../../planning/keys.js';
import type { LadderPlan } from './quote-ladder.js';

/** Where mass goes or comes from. */
export type SourceKind = 'sell' | 'deliver' | 'dispose' | 'stock' | 'receive';

/**
 * Where the tonnes of a firm volume come from: the plans at the volumes of the quote ladder against the plan at
 * volume 0. What comes in goes out, so at each volume
 *
 *     delivered = Σ change of what is received − Σ change of what is sold, delivered on, disposed of, kept
 *
 * in mass over the horizon. On an exact ladder the straight mix of two neighbouring plans is a best plan too.
 */
export interface DisplacedByVolume {
  /** Mass a full month, rising from 0. */
  readonly volumes: readonly number[];
  /** On the offer, at each volume. */
  readonly delivered: readonly number[];
  /** The one that gives the most at the largest volume first. */
  readonly sources: readonly DisplacedSource[];
}

export interface DisplacedSource {
  readonly kind: SourceKind;
  /** Of the outlet, contract, disposal, feed; of the material whose stock at the end of the horizon it is. */
  readonly id: string;
  /** Plan at the volume less plan at 0, at each volume. */
  readonly change: readonly number[];
}

/** Relative to the most delivered: what moves less does not move. */
const NOTHING = 1e-9;

/** @param plans the first at volume 0 */
export function displacedByVolume(plans: readonly LadderPlan[], offer: string): DisplacedByVolume {
  const masses = plans.map(massesOf);
  const keyOfOffer = nameOf('deliver', offer);
  const delivered = masses.map((each) => each.get(keyOfOffer)?.mass ?? 0);
  const least = NOTHING * Math.max(...delivered);
  const first = masses[0];
  const sources = [...first].flatMap(([key, { kind, id, mass }]): DisplacedSource[] => {
    if (key === keyOfOffer) return [];
    const change = masses.map((each) => (each.get(key)?.mass ?? 0) - mass);
    return change.some((moved) => Math.abs(moved) > least) ? [{ kind, id, change }] : [];
  });
  return {
    volumes: plans.map(({ at }) => at),
    delivered,
    sources: sources.sort((a, b) => givenAtLast(b) - givenAtLast(a)),
  };
}

function givenAtLast({ kind, change }: DisplacedSource): number {
  const last = change[change.length - 1];
  return kind === 'receive' ? last : -last;
}

interface Mass {
  readonly kind: SourceKind;
  readonly id: string;
  mass: number;
}

function massesOf({ best: { formulation, primal } }: LadderPlan): Map<string, Mass> {
  const sums = new Map<string, Mass>();
  const lastMonth = formulation.plant.months.length - 1;
  formulation.program.columnKeys.forEach((key, j) => {
    const source = sourceOf(key, lastMonth);
    if (source === undefined) return;
    const name = nameOf(source.kind, source.id);
    const sum = sums.get(name);
    if (sum === undefined) sums.set(name, { ...source, mass: primal[j] });
    else sum.mass += primal[j];
  });
  return sums;
}

function nameOf(kind: SourceKind, id: string): string {
  return `${kind} ${id}`;
}

function sourceOf(key: ColumnKey, lastMonth: number): { kind: SourceKind; id: string } | undefined {
  switch (key.kind) {
    case 'receive':
      return { kind: 'receive', id: key.feed };
    case 'sell':
      return { kind: 'sell', id: key.outlet };
    case 'deliver':
      return { kind: 'deliver', id: key.contract };
    case 'dispose':
      return { kind: 'dispose', id: key.disposal };
    case 'stock':
      return key.month === lastMonth ? { kind: 'stock', id: key.material } : undefined;
    default:
      return undefined;
  }
}
