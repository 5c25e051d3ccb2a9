import { byMonth, type Derivation, sortedById } from './derivation.js';
import type { ByMonth, PlantCrew, PlantMachine, PlantWindow } from './plant.js';

export function deriveCrews(derivation: Derivation): PlantCrew[] {
  return sortedById(derivation.scenario.crews).map((crew) => ({
    id: crew.id,
    name: crew.name ?? crew.id,
    people: crew.people,
    wage: byMonth(derivation, crew.wage, 0),
    staffing: crew.staffing,
  }));
}

export function deriveMachines(derivation: Derivation, windows: readonly PlantWindow[]): PlantMachine[] {
  return sortedById(derivation.scenario.machines).map((machine) => {
    const count = machine.count ?? 1;
    const availability = byMonth(derivation, machine.availability, 1);
    const maintenance = byMonth(derivation, machine.maintenanceHours, 0);
    return {
      id: machine.id,
      name: machine.name ?? machine.id,
      count,
      availability,
      ...(machine.crew === undefined ? {} : { crew: machine.crew }),
      available: availableHours(windows, count, availability, maintenance),
    };
  });
}

/**
 * Machine-hours by window, then month:
 * available[w,t] = hours[w,t] · count · availability[t] − maintenance[t] · hours[w,t] / Σ_w hours[w,t],
 * 0 in a month without hours. Negative where the maintenance takes more than there is.
 */
export function availableHours(
  windows: readonly { readonly hours: ByMonth }[],
  count: number,
  availability: ByMonth,
  maintenance: ByMonth,
): number[][] {
  const allHours = availability.map((_, t) => windows.reduce((sum, { hours }) => sum + hours[t]!, 0));
  return windows.map(({ hours }) =>
    hours.map((open, t) =>
      open === 0 ? 0 : open * count * availability[t]! - (maintenance[t]! * open) / allHours[t]!,
    ),
  );
}
