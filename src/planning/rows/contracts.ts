import type { Plant, PlantContract } from '../../plant/plant.js';
import { allMass } from '../all-mass.js';
import type { Columns, PlanBuilder } from '../columns.js';

interface ContractColumns {
  readonly contract: PlantContract;
  /** [material of the contract][month] */
  readonly deliver: readonly number[][];
  readonly missed: readonly number[];
  readonly missedTerm: number | undefined;
  readonly short: readonly number[];
  /** More than the plant can deliver in any month. */
  readonly ceiling: number;
}

/** What was promised by the month, over the term, and in quality. */
export function addContracts(plant: Plant, columns: Columns, builder: PlanBuilder): void {
  const ceiling = allMass(plant);
  plant.contracts.forEach((contract, c) => {
    const own: ContractColumns = {
      contract,
      deliver: columns.deliver[c],
      missed: columns.missed[c],
      missedTerm: columns.missedTerm[c],
      short: columns.short[c],
      ceiling,
    };
    for (const { index: month } of plant.months) {
      if (contract.inForce[month] === 0) continue;
      if (contract.expected === undefined) addMonthlyLimits(own, builder, month);
      else addCall(own, builder, month, contract.expected[month]);
      addQuality(own, builder, month);
    }
    if (contract.lastMonth !== undefined) addTerm(own, builder);
  });
}

/**
 *     min ≤ Σ_m deliver[c,m,t] + missed[c,t],   Σ_m deliver[c,m,t] ≤ max      (mass)
 */
function addMonthlyLimits(own: ContractColumns, builder: PlanBuilder, month: number): void {
  const { contract } = own;
  const min = builder.row(
    { kind: 'contractMinimum', contract: contract.id, month },
    { lower: contract.monthlyMin[month] },
  );
  addDeliveries(own, builder, min, month);
  if (own.missed.length > 0) builder.add(min, own.missed[month], 1);
  const upper = contract.monthlyMax[month];
  if (Number.isFinite(upper)) {
    const max = builder.row({ kind: 'contractMaximum', contract: contract.id, month }, { upper });
    addDeliveries(own, builder, max, month);
  }
  if (own.short.length > 0) addShortMonth(own, builder, month);
}

/**
 * A month is short or it is not: tonnes are missed only in a short month, and a short month delivers no more
 * than the minimum less what is missed.
 *
 *     missed ≤ min·short,   Σ_m deliver + missed ≤ min + (max − min)·(1 − short)      (mass)
 */
function addShortMonth(own: ContractColumns, builder: PlanBuilder, month: number): void {
  const { contract } = own;
  const min = contract.monthlyMin[month];
  const room = Math.max(0, Math.min(contract.monthlyMax[month], own.ceiling) - min);
  const only = builder.row({ kind: 'missedOnlyWhenShort', contract: contract.id, month }, { upper: 0 });
  builder.add(only, own.missed[month], 1);
  builder.add(only, own.short[month], -min);
  const notBoth = builder.row({ kind: 'notBoth', contract: contract.id, month }, { upper: min + room });
  addDeliveries(own, builder, notBoth, month);
  builder.add(notBoth, own.missed[month], 1);
  builder.add(notBoth, own.short[month], room);
}

/**
 *     Σ_m deliver[c,m,t] + missed[c,t] = expected      (mass)
 */
function addCall(own: ContractColumns, builder: PlanBuilder, month: number, expected: number): void {
  const row = builder.row(
    { kind: 'called', contract: own.contract.id, month },
    { lower: expected, upper: expected },
  );
  addDeliveries(own, builder, row, month);
  if (own.missed.length > 0) builder.add(row, own.missed[month], 1);
}

/**
 * Average by mass of a month within its limits.
 *
 *     Σ_m (value[m] − limit)·deliver[c,m,t] ≤ 0 for a maximum, ≥ 0 for a minimum      (mass × measure)
 */
function addQuality(own: ContractColumns, builder: PlanBuilder, month: number): void {
  for (const quality of own.contract.quality) {
    for (const limit of ['min', 'max'] as const) {
      const figure = quality[limit];
      if (figure === undefined) continue;
      const key = {
        kind: 'quality',
        contract: own.contract.id,
        measure: quality.measure,
        limit,
        month,
      } as const;
      const row = builder.row(key, limit === 'max' ? { upper: 0 } : { lower: 0 });
      own.contract.materials.forEach((material, m) => {
        builder.add(row, own.deliver[m][month], quality.values[material] - figure);
      });
    }
  }
}

/**
 *     termMin ≤ Σ_t (Σ_m deliver + missed) + missedTerm,   Σ_t Σ_m deliver ≤ termMax      (mass)
 */
function addTerm(own: ContractColumns, builder: PlanBuilder): void {
  const { contract } = own;
  const months = contract.inForce.flatMap((share, month) => (share > 0 ? [month] : []));
  if (contract.termMin !== undefined) {
    const row = builder.row({ kind: 'termMinimum', contract: contract.id }, { lower: contract.termMin });
    for (const month of months) {
      addDeliveries(own, builder, row, month);
      if (own.missed.length > 0) builder.add(row, own.missed[month], 1);
    }
    if (own.missedTerm !== undefined) builder.add(row, own.missedTerm, 1);
  }
  if (contract.termMax !== undefined) {
    const row = builder.row({ kind: 'termMaximum', contract: contract.id }, { upper: contract.termMax });
    for (const month of months) addDeliveries(own, builder, row, month);
  }
}

function addDeliveries(own: ContractColumns, builder: PlanBuilder, row: number, month: number): void {
  for (const material of own.deliver) builder.add(row, material[month], 1);
}
