import { discountFactor } from '../../planning/discount.js';
import type { Formulation } from '../../planning/formulate.js';
import type { WouldTakeKey } from './explanation.js';

/** What the plan could use more of: one column, or a step's columns of one month. */
export interface UnusedOption {
  readonly what: WouldTakeKey;
  readonly columns: readonly number[];
  /** Present value of one unit of money by mass more. */
  readonly rate: number;
  readonly price?: number;
  readonly could: number;
  /** Whether the price moves what can be had too: then no price is told at which more would come in. */
  readonly movesSupply?: boolean;
  /** A tier of an outlet opens after the one before it is full. */
  readonly after?: { readonly column: number; readonly width: number };
}

/** Outlets, feeds, steps and contracts of every month. */
export function unusedOptions({ plant, program, columns }: Formulation): UnusedOption[] {
  const tierBefore = (column: number) => ({ column, width: program.columnUpper[column] });
  return plant.months.flatMap(({ index: month }) => {
    const now = discountFactor(plant, month);
    const outlets = plant.outlets.flatMap((outlet, o) =>
      outlet.tiers.map((tier, position): UnusedOption => {
        const column = columns.sell[o][position][month];
        return {
          what: { kind: 'outlet', outlet: outlet.id, tier: position, month },
          columns: [column],
          rate: discountFactor(plant, month, outlet.paymentDays),
          price: tier.price[month],
          could: program.columnUpper[column],
          ...(position === 0 ? {} : { after: tierBefore(columns.sell[o][position - 1][month]) }),
        };
      }),
    );
    const feeds = plant.feeds.map((feed, f): UnusedOption => {
      const column = columns.receive[f][month];
      return {
        what: { kind: 'feed', feed: feed.id, month },
        columns: [column],
        rate: discountFactor(plant, month, feed.paymentDays),
        price: feed.fee[month],
        movesSupply: feed.responds,
        could: program.columnUpper[column],
      };
    });
    const steps = plant.steps.map((step, k): UnusedOption => {
      const windows = columns.run[k].filter((_, w) => plant.windows[w].hours[month] > 0);
      return {
        what: { kind: 'step', step: step.id, month },
        columns: windows.map((window) => window[month]),
        rate: now,
        could: Number.POSITIVE_INFINITY,
      };
    });
    const contracts = plant.contracts.flatMap((contract, c) =>
      contract.inForce[month] === 0
        ? []
        : contract.materials.map(
            (material, m): UnusedOption => ({
              what: { kind: 'contract', contract: contract.id, material, month },
              columns: [columns.deliver[c][m][month]],
              rate: discountFactor(plant, month, contract.paymentDays),
              price: contract.price[material][month],
              could: contract.expected?.[month] ?? contract.monthlyMax[month],
            }),
          ),
    );
    return [...outlets, ...feeds, ...steps.filter((step) => step.columns.length > 0), ...contracts];
  });
}
