import type { Formulation } from '../../planning/formulate.js';
import type { RowKey } from '../../planning/keys.js';
import type { SolvedPoint } from './solve-point.js';

type Point = Pick<SolvedPoint, 'program' | 'primal'>;

/** Whether a mix of two points is free of declared tonnes. */
export type DeclaredTonnesCheck = (a: Point, b: Point) => boolean;

/**
 * Whether the linear program's value may be taken for the plan's on the way between two of its optima. Where a
 * tonne missed for the term costs more than one missed in a month, it could declare tonnes missed that it
 * delivers, which a plan may not. A mix of two plans is free of it where in each month either both miss nothing
 * or both deliver no more than what they do not miss.
 */
export function isFreeOfDeclaredTonnes(formulation: Formulation, a: Point, b: Point): boolean {
  return declaredTonnesCheck(formulation)(a, b);
}

/** The same for many points of programs that have the formulation's rows and columns. */
export function declaredTonnesCheck(formulation: Formulation): DeclaredTonnesCheck {
  const places = placesOf(formulation);
  return (a, b) =>
    places.every((place) => {
      if (!gains(place, a) && !gains(place, b)) return true;
      const figures = [a, b].map((point) => figuresAt(place, point));
      return !figures.some(({ isMissing }) => isMissing) || !figures.some(({ isOver }) => isOver);
    });
}

/** A month of a contract with a minimum over its term: columns and row of the program. */
interface Place {
  readonly missed: number;
  readonly missedTerm: number;
  readonly deliver: readonly number[];
  readonly row: number;
}

const TOLERANCE = 1e-6;

function placesOf({ plant, columns, program }: Formulation): Place[] {
  return plant.contracts.flatMap((contract, c) => {
    const missedTerm = columns.missedTerm[c];
    if (contract.termMin === undefined || contract.expected !== undefined || missedTerm === undefined) {
      return [];
    }
    return plant.months.flatMap(({ index: month }) => {
      const missed = columns.missed[c]?.[month];
      const isMinimum = (key: RowKey) =>
        key.kind === 'contractMinimum' && key.contract === contract.id && key.month === month;
      const row = program.rowKeys.findIndex(isMinimum);
      if (missed === undefined || row < 0) return [];
      return [{ missed, missedTerm, deliver: columns.deliver[c].map((byMonth) => byMonth[month]), row }];
    });
  });
}

/** A tonne declared missed costs the month's charge and saves the term's. */
function gains({ missed, missedTerm }: Place, { program: { cost } }: Point): boolean {
  return cost[missed] > cost[missedTerm];
}

function figuresAt({ missed, deliver, row }: Place, { program, primal }: Point) {
  const delivered = deliver.reduce((sum, column) => sum + primal[column], 0);
  const min = program.rowLower[row];
  const small = TOLERANCE * (1 + min);
  return { isMissing: primal[missed] > small, isOver: delivered + primal[missed] - min > small };
}
