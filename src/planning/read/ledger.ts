import type { Plant } from '../../plant/plant.js';
import type { StatementLine } from '../plan.js';
import type { Amounts } from './amounts.js';

/** One amount of money, from the plan's quantities and the plant's rates; never from the objective. */
export interface LedgerEntry {
  readonly line: StatementLine;
  /** The month whose business it is. */
  readonly month: number;
  /** Days from that month's end to the payment. */
  readonly paymentDays: number;
  /** Currency; receipts positive, costs negative. */
  readonly amount: number;
}

/** Every money item of a plan. */
export function ledgerOf(plant: Plant, amounts: Amounts): LedgerEntry[] {
  const entries: LedgerEntry[] = [];
  const enter = (line: StatementLine, month: number, amount: number, paymentDays = 0): void => {
    if (amount !== 0) entries.push({ line, month, paymentDays, amount });
  };
  for (const { index: month } of plant.months) {
    enterFeeds(plant, amounts, month, enter);
    enterSales(plant, amounts, month, enter);
    enterContracts(plant, amounts, month, enter);
    enterRunning(plant, amounts, month, enter);
    enterWaste(plant, amounts, month, enter);
    enterStocks(plant, amounts, month, enter);
    for (const fixed of plant.fixedCosts) enter('fixed costs', month, -fixed.perMonth[month]);
  }
  return entries;
}

type Enter = (line: StatementLine, month: number, amount: number, paymentDays?: number) => void;

function enterFeeds(plant: Plant, amounts: Amounts, month: number, enter: Enter): void {
  plant.feeds.forEach((feed, f) => {
    const mass = amounts.receive[f][month];
    const committed = feed.committed[month];
    const fees = committed * feed.committedFee[month] + (mass - committed) * feed.fee[month];
    enter('tipping fees', month, fees, feed.paymentDays);
    enter('haulage', month, -mass * feed.haulage[month]);
  });
}

function enterSales(plant: Plant, amounts: Amounts, month: number, enter: Enter): void {
  plant.outlets.forEach((outlet, o) => {
    outlet.tiers.forEach((tier, position) => {
      const mass = amounts.sell[o][position][month];
      enter('sales', month, mass * tier.price[month], outlet.paymentDays);
      enter('freight', month, -mass * outlet.freight[month]);
      enter('packing', month, -mass * outlet.packing[month]);
    });
  });
}

function enterContracts(plant: Plant, amounts: Amounts, month: number, enter: Enter): void {
  plant.contracts.forEach((contract, c) => {
    contract.materials.forEach((material, m) => {
      const mass = amounts.deliver[c][m][month];
      enter('contract receipts', month, mass * contract.price[material][month], contract.paymentDays);
      enter('freight', month, -mass * contract.freight[material][month]);
      enter('packing', month, -mass * contract.packing[material][month]);
    });
    if (contract.shortfall === undefined) return;
    enter('shortfall charges', month, -amounts.missed[c][month] * contract.shortfall.charge[month]);
    const missedTerm = amounts.missedTerm[c];
    if (missedTerm !== undefined && contract.lastMonth === month) {
      enter('shortfall charges', month, -missedTerm * contract.shortfall.termCharge);
    }
  });
}

function enterRunning(plant: Plant, amounts: Amounts, month: number, enter: Enter): void {
  plant.windows.forEach((window, w) => {
    plant.steps.forEach((step, k) => {
      const mass = amounts.run[k][w][month];
      enter('power', month, -mass * step.energy[month] * window.powerPrice[month]);
      enter('wear', month, -mass * step.wear[month]);
    });
    plant.crews.forEach((crew, c) => {
      const hourly = crew.people * crew.wage[month] * window.wageFactor;
      enter('wages', month, -amounts.attended[c][w][month] * hourly);
    });
  });
  if (plant.demand !== undefined)
    enter('demand charge', month, -amounts.peak[month] * plant.demand.charge[month]);
}

function enterWaste(plant: Plant, amounts: Amounts, month: number, enter: Enter): void {
  plant.disposals.forEach((disposal, d) => {
    disposal.materials.forEach((material, m) => {
      const mass = amounts.dispose[d][m][month];
      enter('disposal', month, -mass * disposal.charge[material][month]);
      enter('haulage', month, -mass * disposal.haulage[material][month]);
    });
  });
}

function enterStocks(plant: Plant, amounts: Amounts, month: number, enter: Enter): void {
  plant.materials.forEach(({ stock }, m) => {
    if (stock === undefined) return;
    enter('holding', month, -amounts.stock[m][month] * stock.holdingCost[month]);
    if (month !== plant.months.length - 1) return;
    enter('change in stock value', month, (amounts.stock[m][month] - stock.opening) * stock.closingValue);
  });
}
