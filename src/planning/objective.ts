import type { Plant } from '../plant/plant.js';
import type { Columns, PlanBuilder } from './columns.js';
import { discountFactor } from './discount.js';

/**
 * Present value (currency): receipts less costs, each at its day. Costs fall at the month's end, receipts
 * `paymentDays` later.
 */
export function addObjective(plant: Plant, columns: Columns, builder: PlanBuilder): void {
  for (const { index: month } of plant.months) {
    addFeeds(plant, columns, builder, month);
    addSales(plant, columns, builder, month);
    addContractMoney(plant, columns, builder, month);
    addRunning(plant, columns, builder, month);
    addWaste(plant, columns, builder, month);
  }
  addTermCharges(plant, columns, builder);
  addStocks(plant, columns, builder);
}

/** fee·receive + (committedFee − fee)·committed − haulage·receive */
function addFeeds(plant: Plant, columns: Columns, builder: PlanBuilder, month: number): void {
  const now = discountFactor(plant, month);
  plant.feeds.forEach((feed, f) => {
    const paid = discountFactor(plant, month, feed.paymentDays);
    builder.addCost(columns.receive[f][month], paid * feed.fee[month] - now * feed.haulage[month]);
    builder.addOffset(paid * (feed.committedFee[month] - feed.fee[month]) * feed.committed[month]);
  });
}

/** (price − freight − packing)·sell */
function addSales(plant: Plant, columns: Columns, builder: PlanBuilder, month: number): void {
  const now = discountFactor(plant, month);
  plant.outlets.forEach((outlet, o) => {
    const paid = discountFactor(plant, month, outlet.paymentDays);
    const costs = now * (outlet.freight[month] + outlet.packing[month]);
    outlet.tiers.forEach((tier, position) => {
      builder.addCost(columns.sell[o][position][month], paid * tier.price[month] - costs);
    });
  });
}

/** (price − freight − packing)·deliver − charge·missed */
function addContractMoney(plant: Plant, columns: Columns, builder: PlanBuilder, month: number): void {
  const now = discountFactor(plant, month);
  plant.contracts.forEach((contract, c) => {
    if (contract.inForce[month] === 0) return;
    const paid = discountFactor(plant, month, contract.paymentDays);
    contract.materials.forEach((material, m) => {
      const costs = now * (contract.freight[material][month] + contract.packing[material][month]);
      builder.addCost(columns.deliver[c][m][month], paid * contract.price[material][month] - costs);
    });
    const charge = contract.shortfall?.charge[month] ?? 0;
    if (charge > 0) builder.addCost(columns.missed[c][month], -now * charge);
  });
}

/** −(energy·powerPrice + wear)·run − people·wage·wageFactor·attended − charge·peak − fixed */
function addRunning(plant: Plant, columns: Columns, builder: PlanBuilder, month: number): void {
  const now = discountFactor(plant, month);
  plant.windows.forEach((window, w) => {
    plant.steps.forEach((step, k) => {
      const cost = step.energy[month] * window.powerPrice[month] + step.wear[month];
      builder.addCost(columns.run[k][w][month], -now * cost);
    });
    plant.crews.forEach((crew, c) => {
      builder.addCost(
        columns.attended[c][w][month],
        -now * crew.people * crew.wage[month] * window.wageFactor,
      );
    });
  });
  if (plant.demand !== undefined) builder.addCost(columns.peak[month], -now * plant.demand.charge[month]);
  for (const fixed of plant.fixedCosts) builder.addOffset(-now * fixed.perMonth[month]);
}

/** −(charge + haulage)·dispose */
function addWaste(plant: Plant, columns: Columns, builder: PlanBuilder, month: number): void {
  const now = discountFactor(plant, month);
  plant.disposals.forEach((disposal, d) => {
    disposal.materials.forEach((material, m) => {
      const cost = disposal.charge[material][month] + disposal.haulage[material][month];
      builder.addCost(columns.dispose[d][m][month], -now * cost);
    });
  });
}

/** −termCharge·missedTerm, at the end of the contract's last month inside the horizon */
function addTermCharges(plant: Plant, columns: Columns, builder: PlanBuilder): void {
  plant.contracts.forEach((contract, c) => {
    const column = columns.missedTerm[c];
    if (column === undefined || contract.shortfall === undefined || contract.lastMonth === undefined) return;
    builder.addCost(column, -discountFactor(plant, contract.lastMonth) * contract.shortfall.termCharge);
  });
}

/** value·(closing − opening) at the end of the last month − holdingCost·stock */
function addStocks(plant: Plant, columns: Columns, builder: PlanBuilder): void {
  const last = plant.months.length - 1;
  plant.materials.forEach(({ stock }, m) => {
    if (stock === undefined) return;
    for (const { index: month } of plant.months) {
      builder.addCost(columns.stock[m][month], -discountFactor(plant, month) * stock.holdingCost[month]);
    }
    const value = discountFactor(plant, last) * stock.closingValue;
    builder.addCost(columns.stock[m][last], value);
    builder.addOffset(-value * stock.opening);
  });
}
