import { windowDays, windowLength } from '../calendar/window-hours.js';
import { byMonth, type Derivation, sortedById } from './derivation.js';
import type { PlantDemand, PlantWindow } from './plant.js';

/** Windows with their days and hours; closed dates drop the windows that begin on them. */
export function deriveWindows(derivation: Derivation): PlantWindow[] {
  const { windows, closed = [] } = derivation.scenario.operation;
  return sortedById(windows).map((window) => {
    const length = windowLength(window.from, window.to);
    const days = windowDays(derivation.months, window.days, closed);
    return {
      id: window.id,
      name: window.name ?? window.id,
      length,
      days,
      hours: days.map((count) => count * length),
      powerPrice: byMonth(derivation, window.powerPrice, 0),
      wageFactor: window.wageFactor ?? 1,
    };
  });
}

export function deriveDemand(derivation: Derivation): PlantDemand | undefined {
  const { demand } = derivation.scenario.operation;
  if (demand === undefined) return undefined;
  return {
    charge: byMonth(derivation, demand.charge, 0),
    basis: demand.basis ?? 'average',
    peakToAverage: demand.peakToAverage ?? 1,
    baseLoad: demand.baseLoad ?? 0,
  };
}
