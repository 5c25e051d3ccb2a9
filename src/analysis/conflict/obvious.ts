import type { Plant, PlantContract } from '../../plant/plant.js';
import type { ObviousConflict } from './conflict.js';

/**
 * Conflicts that sums alone show, before any solve. Each is a bound that no plan can pass, so what is listed is
 * surely a conflict; what is not listed may be one.
 */
export function obviousConflicts(plant: Plant): ObviousConflict[] {
  return [...minimumsAboveCapacity(plant), ...committedAboveMachines(plant), ...wasteWithoutRoom(plant)];
}

/**
 * Σ of what a contract's materials can come to until a month's end: opening stocks, feeds, and for each step that
 * makes one of them the largest share · throughput · hours of its machine; and no more than all that comes in.
 */
function minimumsAboveCapacity(plant: Plant): ObviousConflict[] {
  return plant.contracts.flatMap((contract) =>
    plant.months.flatMap(({ index: month }): ObviousConflict[] => {
      const asked = hardMinimum(contract, month);
      if (asked <= 0) return [];
      const before = plant.months.filter(({ index }) => index < month);
      const held = contract.materials.some((material) => stockOf(plant, material) !== undefined);
      const months = held ? [...before.map(({ index }) => index), month] : [month];
      const each = sum(contract.materials.map((material) => mostOf(plant, material, months)));
      const atMost = Math.min(each, massUntil(plant, month));
      if (asked <= atMost * (1 + 1e-9)) return [];
      return [{ kind: 'minimum above capacity', contract: contract.id, month, asked, atMost }];
    }),
  );
}

/** No step makes mass: all that feeds bring until a month's end, and what lay there. */
function massUntil(plant: Plant, last: number): number {
  const opening = sum(plant.materials.map(({ stock }) => stock?.opening ?? 0));
  const months = plant.months.filter(({ index }) => index <= last);
  return (
    opening +
    sum(plant.feeds.flatMap((feed) => months.map(({ index }) => feed.committed[index] + feed.others[index])))
  );
}

function hardMinimum(contract: PlantContract, month: number): number {
  if (contract.shortfall !== undefined) return 0;
  return contract.expected?.[month] ?? contract.monthlyMin[month];
}

/** The most of a material that can be there in some months, by the steps that make it and by all that comes in. */
function mostOf(plant: Plant, material: string, months: readonly number[]): number {
  const opening = stockOf(plant, material)?.opening ?? 0;
  const received = sum(
    plant.feeds
      .filter((feed) => feed.material === material)
      .flatMap((feed) => months.map((month) => feed.committed[month] + feed.others[month])),
  );
  const made = sum(
    plant.machines.flatMap((machine) => {
      const steps = plant.steps.filter((step) => step.machine === machine.id);
      return months.map((month) => {
        const hours = sum(machine.available.map((window) => window[month]));
        const each = steps.map(
          ({ yields, throughput }) =>
            throughput[month] *
            sum(yields.filter((out) => out.material === material).map(({ share }) => share)),
        );
        return hours * Math.max(0, ...each);
      });
    }),
  );
  return opening + received + made;
}

/** Committed less what the steps can take, outlets, contracts and disposals can take, and rooms can hold. */
function committedAboveMachines(plant: Plant): ObviousConflict[] {
  const fed = new Set(plant.feeds.map(({ material }) => material));
  return plant.materials.flatMap((material): ObviousConflict[] => {
    if (!fed.has(material.id)) return [];
    let committed = material.stock?.opening ?? 0;
    let gone = 0;
    for (const { index: month } of plant.months) {
      committed += sum(
        plant.feeds.filter((feed) => feed.material === material.id).map((feed) => feed.committed[month]),
      );
      gone += usedAtMost(plant, material.id, month) + takenAtMost(plant, material.id, month);
      const atMost = gone + roomOf(plant, material.id, month);
      if (committed > atMost * (1 + 1e-9)) {
        return [
          { kind: 'committed above machines and room', material: material.id, month, committed, atMost },
        ];
      }
    }
    return [];
  });
}

/**
 * Materials that no step takes: what committed tires must leave of it at the least share of any step on what is
 * fed, against outlets, contracts, disposals and room.
 */
function wasteWithoutRoom(plant: Plant): ObviousConflict[] {
  const used = new Set(plant.steps.map(({ input }) => input));
  return plant.materials
    .filter(({ id }) => !used.has(id))
    .flatMap(({ id, stock }): ObviousConflict[] => {
      let made = stock?.opening ?? 0;
      let gone = 0;
      for (const { index: month } of plant.months) {
        made += sum(
          plant.feeds.map((feed) => leftBy(plant, feed.material, id, feed.committed[month], month)),
        );
        gone += takenAtMost(plant, id, month);
        const atMost = gone + roomOf(plant, id, month);
        if (made > atMost * (1 + 1e-9)) {
          return [{ kind: 'waste without room', material: id, month, made, atMost }];
        }
      }
      return [];
    });
}

/** What a mass of feed surely leaves of a material: nothing where it can be held or leave as it is. */
function leftBy(plant: Plant, fed: string, material: string, mass: number, month: number): number {
  if (fed === material || stockOf(plant, fed) !== undefined || takenAtMost(plant, fed, month) > 0) return 0;
  const steps = plant.steps.filter(({ input }) => input === fed);
  if (steps.length === 0) return 0;
  const shares = steps.map(({ yields }) =>
    sum(yields.filter((out) => out.material === material).map(({ share }) => share)),
  );
  return mass * Math.min(...shares);
}

function usedAtMost(plant: Plant, material: string, month: number): number {
  return sum(
    plant.machines.map((machine) => {
      const steps = plant.steps.filter((step) => step.machine === machine.id && step.input === material);
      const hours = sum(machine.available.map((window) => window[month]));
      return hours * Math.max(0, ...steps.map(({ throughput }) => throughput[month]));
    }),
  );
}

function takenAtMost(plant: Plant, material: string, month: number): number {
  const outlets = plant.outlets
    .filter((outlet) => outlet.material === material)
    .map((outlet) => sum(outlet.tiers.map(({ width }) => width[month])));
  const contracts = plant.contracts
    .filter((contract) => contract.materials.includes(material) && contract.inForce[month] > 0)
    .map((contract) => contract.expected?.[month] ?? contract.monthlyMax[month]);
  const disposals = plant.disposals
    .filter((disposal) => disposal.materials.includes(material))
    .map((disposal) => disposal.limit[month]);
  return sum([...outlets, ...contracts, ...disposals]);
}

function roomOf(plant: Plant, material: string, month: number): number {
  const stock = stockOf(plant, material);
  if (stock === undefined) return 0;
  const stores = plant.stores.filter((store) => store.materials.includes(material));
  return Math.min(stock.capacity[month], ...stores.map(({ capacity }) => capacity));
}

function stockOf(plant: Plant, material: string) {
  return plant.materials.find(({ id }) => id === material)?.stock;
}

function sum(amounts: readonly number[]): number {
  return amounts.reduce((total, amount) => total + amount, 0);
}
