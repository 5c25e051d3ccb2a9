import type { Plant } from '../../plant/plant.js';
import type { PlanMonth, WindowEnergy } from '../plan.js';
import { ratedLoad } from '../rows/demand.js';
import type { Amounts } from './amounts.js';

/** kWh by window and, with a demand charge, the month's peak and the window that sets it. */
export function energyOf(plant: Plant, amounts: Amounts, month: number): PlanMonth['energy'] {
  const windows = plant.windows.map((_, w) => windowEnergy(plant, amounts, w, month));
  const total = windows.reduce((sum, window) => sum + window.energy, 0);
  if (plant.demand === undefined) return { total, windows };
  const peak = amounts.peak[month];
  const setBy = peak > plant.demand.baseLoad ? highest(plant, amounts, windows, month) : undefined;
  return { total, windows, peak, ...(setBy === undefined ? {} : { peakWindow: setBy }) };
}

function windowEnergy(plant: Plant, amounts: Amounts, w: number, month: number): WindowEnergy {
  const window = plant.windows[w];
  const hours = window.hours[month];
  const energy = plant.steps.reduce((sum, step, k) => sum + step.energy[month] * amounts.run[k][w][month], 0);
  const attended = plant.crews.map((_, c) => amounts.attended[c][w][month]);
  return {
    window: window.id,
    energy,
    powerPrice: window.powerPrice[month],
    averageLoad: hours > 0 ? energy / hours : 0,
    ...(attended.length > 0 && hours > 0 ? { attendedShare: Math.max(...attended) / hours } : {}),
  };
}

/** The window with the highest load of those that have hours; the first of equals. */
function highest(
  plant: Plant,
  amounts: Amounts,
  windows: readonly WindowEnergy[],
  month: number,
): string | undefined {
  const connected = (w: number) =>
    plant.machines.reduce((sum, machine) => {
      const c = plant.crews.findIndex((crew) => crew.id === machine.crew);
      const on = c < 0 ? 1 : (amounts.on[c][w]?.[month] ?? 0);
      return sum + on * ratedLoad(plant, machine, month);
    }, 0);
  const loads = windows.map((window, w) => {
    if (plant.windows[w].hours[month] === 0) return 0;
    return plant.demand?.basis === 'connected' ? connected(w) : window.averageLoad;
  });
  return windows[loads.indexOf(Math.max(...loads))]?.window;
}
