import { monthsOf } from '../../calendar/month.js';
import { windowDays, windowLength } from '../../calendar/window-hours.js';
import type { Problem } from '../../issue/problem.js';
import type { Draft } from '../../scenario/draft.js';
import { problemAt, shown } from '../../scenario/place.js';
import type { Series } from '../../scenario/schema/figures.js';
import { isCovered, spread } from '../../scenario/series.js';
import { availableHours } from '../derive-machines.js';

/** Maintenance may not take more hours than a machine has in a month that has any. */
export function checkHours(draft: Draft): Problem[] {
  if (draft.horizon === undefined || draft.closed === undefined) return [];
  const clear = draft.fragments.windows.flatMap(({ value: { days, from, to } }) =>
    days === undefined || from === undefined || to === undefined ? [] : [{ days, from, to }],
  );
  if (clear.length < draft.fragments.windows.length) return [];
  const months = monthsOf(draft.horizon.value.firstMonth, draft.horizon.value.months);
  const windows = clear.map(({ days, from, to }) => {
    const length = windowLength(from, to);
    return { hours: windowDays(months, days, draft.closed!).map((count) => count * length) };
  });
  return draft.machines.flatMap(({ value, pointer }) => {
    const availability = value.availability ?? 1;
    const maintenance = value.maintenanceHours ?? 0;
    const series: Series<number>[] = [availability, maintenance];
    if (!series.every((one) => isCovered(one, months))) return [];
    const available = availableHours(
      windows,
      value.count ?? 1,
      spread(availability, months),
      spread(maintenance, months),
    );
    const totals = months.map((_, t) => available.reduce((sum, hours) => sum + hours[t]!, 0));
    const worst = totals.findIndex((hours) => hours < 0);
    if (worst < 0) return [];
    return [
      problemAt(
        draft.document,
        `${pointer}/maintenanceHours`,
        'hours',
        `maintenance leaves ${shown(totals[worst]!)} hours in ${months[worst]!.label}`,
        'Lower the maintenance hours, or raise the availability, the count or the hours of the windows',
      ),
    ];
  });
}
