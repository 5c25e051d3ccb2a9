import type { Warning } from '../issue/warning.js';
import type { Plan } from '../planning/plan.js';
import type { Plant } from '../plant/plant.js';

/** Share of a window's hours below which its load is bunched into the attended ones. */
export const BUNCHED_BELOW = 0.8;

/**
 * A demand charge on the average load of a window understates the peak where crews attend only part of the
 * window: one warning for each window in which that happens, with the month in which it is worst.
 */
export function bunchedLoadWarnings(plant: Plant, plan: Plan): Warning[] {
  if (plant.demand?.basis !== 'average') return [];
  return plant.windows.flatMap((window) => {
    const worst = plan.months
      .flatMap((month) =>
        month.energy.windows
          .filter((each) => each.window === window.id && each.energy > 0)
          .map((each) => ({ month: month.month, share: each.attendedShare ?? 1 })),
      )
      .reduce((least, each) => (each.share < least.share ? each : least), { month: '', share: 1 });
    return worst.share < BUNCHED_BELOW ? [warningOf(plant, window.id, worst)] : [];
  });
}

function warningOf(plant: Plant, window: string, worst: { month: string; share: number }): Warning {
  const name = plant.windows.find((each) => each.id === window)?.name ?? window;
  return {
    pointer: '/operation/demand',
    code: 'bunched load',
    message:
      `In '${name}' crews attend ${(worst.share * 100).toFixed(0)} % of the hours in ${worst.month}: the load is ` +
      'bunched there, and the peak that is paid for may be higher than the plan says.',
  };
}
