import type { Rung } from '../planning/plan.js';
import type { PlannedDocument } from './plan-document.js';
import { sumOf } from './sum.js';

/** What the picture of the ladder shows, over all months or in one. Masses, money in total. */
export interface LadderFigures {
  readonly rungs: readonly (Rung & { readonly name: string })[];
  /** Sold or delivered, and on no rung: steel and what else comes off on the way. Before freight. */
  readonly byProducts: readonly LadderMass[];
  readonly waste: readonly LadderMass[];
  /** Of the whole tire on all rungs. */
  readonly tires: number;
  /** Money of all rungs. */
  readonly net: number;
  /** Margin less the rungs' net. */
  readonly rest: number;
  readonly margin: number;
}

export interface LadderMass {
  readonly name: string;
  readonly mass: number;
  /** Received for by-products, paid for waste. */
  readonly money: number;
}

/** Share of the whole below which a mass is the solver's rounding, not a decision. */
const NOTHING = 1e-9;

/** @param month index of a month; undefined: all of them together */
export function ladderFigures(document: PlannedDocument, month: number | undefined): LadderFigures {
  const { ladder, names, statement } = document;
  const all = month === undefined ? ladder.total : ladder.months[month];
  const tires = sumOf(all, (rung) => rung.tires);
  const onLadder = new Set(ladder.total.map((rung) => rung.material));
  const rest = month === undefined ? sumOf(ladder.rest, (amount) => amount) : ladder.rest[month];
  return {
    rungs: all
      .filter((rung) => rung.tires > NOTHING * tires)
      .map((rung) => ({ ...rung, name: names.materials[rung.material] })),
    byProducts: byProductsOf(document, month).filter(({ material }) => !onLadder.has(material)),
    waste: wasteOf(document, month).filter(({ mass }) => mass > NOTHING * tires),
    tires,
    net: sumOf(all, (rung) => rung.net),
    rest,
    margin: month === undefined ? statement.margin : statement.byMonth[month],
  };
}

function byProductsOf(
  { months, names }: PlannedDocument,
  month: number | undefined,
): (LadderMass & { readonly material: string })[] {
  const chosen = month === undefined ? months : [months[month]];
  const parts = chosen.flatMap(({ sales, contracts }) => [
    ...sales.map(({ material, mass, receipts }) => ({ material, mass, money: receipts })),
    ...contracts.flatMap(({ materials }) =>
      materials.map(({ material, mass, price }) => ({ material, mass, money: mass * price })),
    ),
  ]);
  return added(parts, ({ material }) => material)
    .filter(({ mass }) => mass > 0)
    .map((each) => ({ ...each, name: names.materials[each.material] }));
}

function wasteOf(document: PlannedDocument, month: number | undefined): LadderMass[] {
  const { names, total, months } = document;
  const disposals = month === undefined ? total.disposals : months[month].disposals;
  const parts = disposals.map(({ material, mass, cost }) => ({ material, mass, money: cost }));
  return added(parts, ({ material }) => material).map((each) => ({
    ...each,
    name: names.materials[each.material],
  }));
}

function added<T extends { readonly mass: number; readonly money: number }>(
  parts: readonly T[],
  keyOf: (part: T) => string,
): T[] {
  const sums = new Map<string, T>();
  for (const part of parts) {
    const before = sums.get(keyOf(part));
    sums.set(
      keyOf(part),
      before === undefined
        ? part
        : { ...before, mass: before.mass + part.mass, money: before.money + part.money },
    );
  }
  return [...sums.values()];
}
