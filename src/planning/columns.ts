import type { Plant, PlantContract } from '../plant/plant.js';
import type { ProgramBuilder } from '../program/builder.js';
import type { ColumnKey, RowKey } from './keys.js';

export type PlanBuilder = ProgramBuilder<RowKey, ColumnKey>;

/** Column indices by the position of each noun in the plant's lists, then as the name says. */
export interface Columns {
  /** [feed][month] */
  readonly receive: readonly number[][];
  /** [step][window][month] */
  readonly run: readonly number[][][];
  /** [material][month]; empty for a material that is never held */
  readonly stock: readonly number[][];
  /** [outlet][tier][month] */
  readonly sell: readonly number[][][];
  /** [contract][material of the contract][month] */
  readonly deliver: readonly number[][][];
  /** [contract][month]; empty where the minimum is hard */
  readonly missed: readonly number[][];
  /** [contract]; undefined without a term minimum or where it is hard */
  readonly missedTerm: readonly (number | undefined)[];
  /** [contract][month]; empty unless the contract's months are told apart, see `tellShortMonths` */
  readonly short: readonly number[][];
  /** [disposal][material of the disposal][month] */
  readonly dispose: readonly number[][][];
  /** [crew][window][month] */
  readonly attended: readonly number[][][];
  /** [crew][window][month]; empty unless staffed by the shift */
  readonly shifts: readonly number[][][];
  /** [crew][window][month]; empty unless staffed by the month */
  readonly open: readonly number[][][];
  /** [crew][window][month]; empty unless the demand charge is on the connected load */
  readonly on: readonly number[][][];
  /** [month]; empty without a demand charge */
  readonly peak: readonly number[];
}

export interface FormulationOptions {
  /**
   * Contracts in which a month is either short or not, by a whole number. Needed where a tonne missed for the
   * term costs more than one missed in a month: else a plan could declare tonnes missed that it has delivered,
   * at the lower charge, and count them towards the term.
   */
  readonly tellShortMonths?: ReadonlySet<string>;
}

/** Declares every column with its bounds: masses ≥ 0, hours ≥ 0, kW ≥ base load. */
export function declareColumns(plant: Plant, builder: PlanBuilder, options: FormulationOptions): Columns {
  const months = plant.months.map((month) => month.index);
  const byWindow = (crew: string, kind: 'attended' | 'shifts' | 'open' | 'on') => {
    const whole = kind !== 'attended';
    return plant.windows.map((window) =>
      months.map((month) => {
        const upper = { attended: window.hours[month], shifts: window.days[month], open: 1, on: 1 }[kind];
        return builder.column({ kind, crew, window: window.id, month }, { upper, integer: whole });
      }),
    );
  };
  return {
    receive: plant.feeds.map((feed) =>
      months.map((month) => {
        const lower = feed.committed[month];
        return builder.column(
          { kind: 'receive', feed: feed.id, month },
          { lower, upper: lower + feed.others[month] },
        );
      }),
    ),
    run: plant.steps.map((step) =>
      plant.windows.map((window) =>
        months.map((month) => builder.column({ kind: 'run', step: step.id, window: window.id, month })),
      ),
    ),
    stock: plant.materials.map((material) => declareStock(plant, builder, material)),
    sell: plant.outlets.map((outlet) =>
      outlet.tiers.map((tier, position) =>
        months.map((month) =>
          builder.column(
            { kind: 'sell', outlet: outlet.id, tier: position, month },
            { upper: tier.width[month] },
          ),
        ),
      ),
    ),
    deliver: plant.contracts.map((contract) =>
      contract.materials.map((material) =>
        months.map((month) => {
          const upper = contract.inForce[month] > 0 ? Number.POSITIVE_INFINITY : 0;
          return builder.column({ kind: 'deliver', contract: contract.id, material, month }, { upper });
        }),
      ),
    ),
    missed: plant.contracts.map((contract) => declareMissed(contract, builder, months)),
    missedTerm: plant.contracts.map((contract) =>
      contract.shortfall !== undefined && contract.termMin !== undefined && contract.lastMonth !== undefined
        ? builder.column({ kind: 'missedTerm', contract: contract.id })
        : undefined,
    ),
    short: plant.contracts.map((contract) =>
      options.tellShortMonths?.has(contract.id)
        ? months.map((month) =>
            builder.column({ kind: 'short', contract: contract.id, month }, { upper: 1, integer: true }),
          )
        : [],
    ),
    dispose: plant.disposals.map((disposal) =>
      disposal.materials.map((material) =>
        months.map((month) => builder.column({ kind: 'dispose', disposal: disposal.id, material, month })),
      ),
    ),
    attended: plant.crews.map((crew) => byWindow(crew.id, 'attended')),
    shifts: plant.crews.map((crew) => (crew.staffing === 'by the shift' ? byWindow(crew.id, 'shifts') : [])),
    open: plant.crews.map((crew) => (crew.staffing === 'by the month' ? byWindow(crew.id, 'open') : [])),
    on: plant.crews.map((crew) => (plant.demand?.basis === 'connected' ? byWindow(crew.id, 'on') : [])),
    peak: plant.demand === undefined ? [] : declarePeak(plant.demand.baseLoad, builder, months),
  };
}

function declareStock(plant: Plant, builder: PlanBuilder, material: Plant['materials'][number]): number[] {
  const { stock } = material;
  if (stock === undefined) return [];
  const last = plant.months.length - 1;
  return plant.months.map(({ index: month }) => {
    const lower = month === last ? Math.max(stock.min[month], stock.closingMin) : stock.min[month];
    return builder.column(
      { kind: 'stock', material: material.id, month },
      { lower, upper: stock.capacity[month] },
    );
  });
}

function declareMissed(contract: PlantContract, builder: PlanBuilder, months: readonly number[]): number[] {
  if (contract.shortfall === undefined) return [];
  return months.map((month) => {
    const upper = contract.expected?.[month] ?? contract.monthlyMin[month];
    return builder.column({ kind: 'missed', contract: contract.id, month }, { upper });
  });
}

function declarePeak(baseLoad: number, builder: PlanBuilder, months: readonly number[]): number[] {
  return months.map((month) => builder.column({ kind: 'peak', month }, { lower: baseLoad }));
}
