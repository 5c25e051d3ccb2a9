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

/** @param plans the first at volume 0, all of programs of one shape */
export function displacedByVolume(plans: readonly LadderPlan[], offer: string): DisplacedByVolume {
  const places = placesOf(plans[0]);
  const changes = places.map(({ columns }) => {
    const masses = plans.map(({ best }) => columns.reduce((sum, column) => sum + best.primal[column], 0));
    return masses.map((mass) => mass - masses[0]);
  });
  const own = places.findIndex(({ kind, id }) => kind === 'deliver' && id === offer);
  const delivered = own < 0 ? plans.map(() => 0) : changes[own];
  const least = NOTHING * Math.max(...delivered);
  const sources = places.flatMap(({ kind, id }, i): DisplacedSource[] => {
    const isMoved = i !== own && changes[i].some((change) => Math.abs(change) > least);
    return isMoved ? [{ kind, id, change: changes[i] }] : [];
  });
  return {
    volumes: plans.map(({ at }) => at),
    delivered,
    sources: sources.sort((one, other) => givenAtLast(other) - givenAtLast(one)),
  };
}

function givenAtLast({ kind, change }: DisplacedSource): number {
  const last = change[change.length - 1];
  return kind === 'receive' ? last : -last;
}

/** Where mass goes to or comes from, and the columns of the program that say how much. */
interface Place {
  readonly kind: SourceKind;
  readonly id: string;
  readonly columns: number[];
}

function placesOf({ best: { formulation } }: LadderPlan): Place[] {
  const places = new Map<string, Place>();
  const lastMonth = formulation.plant.months.length - 1;
  formulation.program.columnKeys.forEach((key, column) => {
    const source = sourceOf(key, lastMonth);
    if (source === undefined) return;
    const name = `${source.kind} ${source.id}`;
    const place = places.get(name) ?? { ...source, columns: [] };
    place.columns.push(column);
    places.set(name, place);
  });
  return [...places.values()];
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
