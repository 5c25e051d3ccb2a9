import { WEEKDAYS } from '../../src/scenario/schema/operation.js';
import type { Crew, Machine, Scenario, Window } from '../../src/scenario/schema/scenario.js';
import { drawMovement, moved } from './figures.js';
import type { StepTemplate } from './ladder.js';
import { seededRandom } from './random.js';
import type { Settings } from './settings.js';

const WORKDAYS = WEEKDAYS.slice(0, 5);

/** Windows of eight hours around the clock, their power prices, and the demand charge. */
export function drawOperation(settings: Settings): Scenario['operation'] {
  const random = seededRandom(settings.seed, 'operation');
  const start = random.integer(5, 7);
  const half = random.chance(0.25) ? 30 : 0;
  const clock = (hour: number) => `${String(hour % 24).padStart(2, '0')}:${half === 0 ? '00' : '30'}`;
  const count = settings.size === 'full' ? random.integer(3, 4) : random.integer(1, 2);
  const prices = [random.real(0.13, 0.24, 3), random.real(0.11, 0.2, 3), random.real(0.05, 0.12, 3)];
  const all: Window[] = [
    { id: 'day', days: [...WORKDAYS], from: clock(start), to: clock(start + 8), powerPrice: prices[0]! },
    {
      id: 'evening',
      days: [...WORKDAYS],
      from: clock(start + 8),
      to: clock(start + 16),
      powerPrice: prices[1]!,
      wageFactor: random.real(1.05, 1.25, 2),
    },
    {
      id: 'night',
      days: [...WORKDAYS],
      from: clock(start + 16),
      to: clock(start),
      powerPrice: prices[2]!,
      wageFactor: random.real(1.2, 1.5, 2),
    },
    {
      id: 'weekend',
      days: ['sat', 'sun'],
      from: clock(start + 2),
      to: clock(start + 10),
      powerPrice: random.real(0.07, 0.16, 3),
      wageFactor: random.real(1.4, 1.8, 2),
    },
  ];
  const windows = all.slice(0, count).map((window) => ({
    ...window,
    ...(settings.degenerate ? { wageFactor: 1 } : {}),
    powerPrice: settings.degenerate
      ? 0.15
      : moved(window.powerPrice as number, drawMovement(random, settings, 0.15), settings),
  }));
  return { ...drawClosed(settings), windows, ...drawDemand(settings) };
}

/** One crew for a small plant, or one for each part of a large one; a machine in ten runs alone. */
export function drawCrewsAndMachines(
  settings: Settings,
  steps: readonly StepTemplate[],
): { crews: Crew[]; machines: Machine[] } {
  const random = seededRandom(settings.seed, 'machines');
  const names =
    settings.size === 'full'
      ? ['front', 'middle', 'back']
      : random.chance(0.5)
        ? ['line']
        : ['front', 'back'];
  const ids = [...new Set(steps.map((step) => step.machine))];
  const crews = names.map((id): Crew => {
    const wage = random.real(22, 36, 1);
    return {
      id,
      people: random.integer(1, 3),
      wage: moved(wage, drawMovement(random, settings, 0.04), settings),
      staffing: 'hourly',
    };
  });
  if (settings.integers) staffInWholes(settings, crews);
  const machines = ids.map((id, index): Machine => {
    const several = random.integer(2, 3);
    const attended = random.chance(0.9);
    return {
      id,
      ...(settings.size === 'full' && index > 0 && random.chance(0.4) ? { count: several } : {}),
      availability: settings.degenerate ? 1 : random.real(0.75, 0.95, 2),
      ...(random.chance(0.5) && !settings.degenerate ? { maintenanceHours: random.integer(4, 16) } : {}),
      ...(attended ? { crew: names[Math.floor((index * names.length) / ids.length)]! } : {}),
    };
  });
  return { crews, machines };
}

function drawClosed({ seed, firstMonth }: Settings): Pick<Scenario['operation'], 'closed'> {
  const random = seededRandom(seed, 'closed');
  if (random.chance(0.5)) return {};
  const days = [...new Set([random.integer(1, 28), random.integer(1, 28)])].sort((a, b) => a - b);
  return { closed: days.map((day) => `${firstMonth}-${String(day).padStart(2, '0')}`) };
}

function drawDemand(settings: Settings): Pick<Scenario['operation'], 'demand'> {
  const random = seededRandom(settings.seed, 'demand');
  const charge = random.real(5, 16, 1);
  const movement = drawMovement(random, settings, 0.2);
  const demand = {
    charge: moved(charge, movement, settings),
    peakToAverage: random.real(1, 1.5, 2),
    baseLoad: random.integer(0, 80),
  };
  if (settings.integers) return { demand: { ...demand, basis: 'connected' } };
  return settings.has.demand ? { demand } : {};
}

/** At least one crew is paid by whole shifts or whole months. */
function staffInWholes(settings: Settings, crews: Crew[]): void {
  const random = seededRandom(settings.seed, 'staffing');
  const always = random.integer(0, crews.length - 1);
  crews.forEach((crew, index) => {
    const staffing = random.pick(['by the shift', 'by the month'] as const);
    if (index === always || random.chance(0.4)) crew.staffing = staffing;
  });
}
