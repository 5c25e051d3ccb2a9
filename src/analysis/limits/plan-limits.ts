import { discountFactor } from '../../planning/discount.js';
import type { Formulation, PlanProgram } from '../../planning/formulate.js';
import type { ColumnKey, RowKey } from '../../planning/keys.js';
import type { Plant } from '../../plant/plant.js';
import { maximum, minimum } from './contract-limits.js';
import { ofColumn, ofRow } from './limit-of.js';
import type { LimitKey, PlanLimit } from './plan-limit.js';

/**
 * Every limit and promise in a plant's program, in the order of its rows and then of its columns. Balances,
 * yields and the calendar are none. Limits that nobody set (a minimum of 0, a tier that is not in force) are
 * left out. Of crews that are not paid by the hour the limit is the attendance that the staffing gives; hours of
 * the others are bought as needed.
 */
export function planLimits(formulation: Formulation): PlanLimit[] {
  const { plant, program } = formulation;
  const rows = program.rowKeys.flatMap((key, index) => rowLimit(formulation, key, index) ?? []);
  const columns = program.columnKeys.flatMap((key, index) => columnLimits(plant, program, key, index));
  return [...rows, ...columns];
}

function rowLimit(formulation: Formulation, key: RowKey, index: number): PlanLimit | undefined {
  const { program } = formulation;
  const upper = program.rowUpper[index];
  const lower = program.rowLower[index];
  switch (key.kind) {
    case 'machine': {
      const limit = { ...key, kind: 'machineHours' } as const;
      return upper === 0 ? undefined : ofRow(limit, 'machine-hour', 'upper', upper, index);
    }
    case 'attendance':
      return attendance(formulation, key, index);
    case 'contractMinimum':
      return lower === 0
        ? undefined
        : minimum(formulation, { ...key, kind: 'contractMinimum' }, lower, index);
    case 'called':
      return lower === 0 ? undefined : minimum(formulation, { ...key, kind: 'contractCall' }, lower, index);
    case 'contractMaximum':
      return maximum(formulation, { ...key, kind: 'contractMaximum' }, upper, index);
    case 'termMinimum':
    case 'termMaximum': {
      const { contract } = key;
      const month = formulation.plant.contracts.find(({ id }) => id === contract)?.lastMonth ?? 0;
      const limit = { kind: key.kind, contract, month };
      if (key.kind === 'termMaximum') return ofRow(limit, 'mass', 'upper', upper, index);
      return lower <= 0 ? undefined : ofRow(limit, 'mass', 'lower', lower, index);
    }
    case 'quality': {
      const { contract, measure, limit: bound, month } = key;
      const limit = { kind: key.kind, contract, measure, bound, month };
      return ofRow(limit, 'mass × measure', bound === 'max' ? 'upper' : 'lower', 0, index);
    }
    case 'store':
      return ofRow(key, 'mass', 'upper', upper, index);
    case 'disposal':
      return ofRow({ ...key, kind: 'disposalLimit' }, 'mass', 'upper', upper, index);
    default:
      return undefined;
  }
}

/** Hours attended as the staffing has them; one more hour of attendance is paid its wages. */
function attendance(
  { plant, program, columns }: Formulation,
  key: { readonly crew: string; readonly window: string; readonly month: number },
  index: number,
): PlanLimit | undefined {
  const crew = plant.crews.findIndex(({ id }) => id === key.crew);
  const window = plant.windows.findIndex(({ id }) => id === key.window);
  const staffed = columns.shifts[crew][window] ?? columns.open[crew][window];
  const column = staffed[key.month];
  if (program.columnLower[column] !== program.columnUpper[column]) return undefined;
  const { length, hours } = plant.windows[window];
  const each = plant.crews[crew].staffing === 'by the shift' ? length : hours[key.month];
  const amount = each * program.columnLower[column];
  const { crew: id, month } = key;
  const limit = { kind: 'crewHours', crew: id, window: key.window, month } as const;
  return amount === 0 ? undefined : ofRow(limit, 'crew-hour', 'equal', amount, index);
}

function columnLimits(plant: Plant, program: PlanProgram, key: ColumnKey, index: number): PlanLimit[] {
  const lower = program.columnLower[index];
  const upper = program.columnUpper[index];
  switch (key.kind) {
    case 'receive':
      return [
        ...(lower > 0 ? [committed(plant, key, lower, index)] : []),
        ...(upper > 0 ? [ofColumn({ ...key, kind: 'feedAvailable' }, 'mass', 'upper', upper, index)] : []),
      ];
    case 'sell':
      if (upper === 0 || !Number.isFinite(upper)) return [];
      return [ofColumn({ ...key, kind: 'outletTier' }, 'mass', 'upper', upper, index)];
    case 'stock':
      return [
        ...(lower > 0 ? [ofColumn(stockFloor(plant, key), 'mass', 'lower', lower, index)] : []),
        ...(Number.isFinite(upper)
          ? [ofColumn({ ...key, kind: 'stockCapacity' }, 'mass', 'upper', upper, index)]
          : []),
      ];
    default:
      return [];
  }
}

/** Tonnes that must be taken, of which those at the committed fee are as many: it moves with them. */
function committed(
  plant: Plant,
  key: { readonly feed: string; readonly month: number },
  amount: number,
  index: number,
): PlanLimit {
  const { feed: id, month } = key;
  const limit = ofColumn({ kind: 'feedCommitted', feed: id, month }, 'mass', 'lower', amount, index);
  const feed = plant.feeds.find((each) => each.id === id);
  if (feed === undefined) return limit;
  const paid = discountFactor(plant, month, feed.paymentDays);
  const offset = paid * (feed.committedFee[month] - feed.fee[month]);
  return { ...limit, change: { ...limit.change, offset } };
}

/** In the last month the larger of the minimum and the closing minimum binds: it is named. */
function stockFloor(plant: Plant, key: { readonly material: string; readonly month: number }): LimitKey {
  const stock = plant.materials.find(({ id }) => id === key.material)?.stock;
  const last = key.month === plant.months.length - 1;
  const closing = last && stock !== undefined && stock.closingMin > stock.min[key.month];
  return { kind: closing ? 'closingStock' : 'stockMinimum', material: key.material, month: key.month };
}
