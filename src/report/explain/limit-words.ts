import type { LimitKey, LimitKind, LimitUnit } from '../../analysis/limits/plan-limit.js';
import { formatFigure, type ReportUnits } from '../figure.js';
import type { Names } from '../names.js';

/**
 * A limit or promise in the user's nouns, without its month.
 *
 * @example limitWords({ kind: 'disposalLimit', disposal: 'landfill', month: 0 }, names) // 'what Landfill takes'
 */
export function limitWords(key: LimitKey, names: Names): string {
  switch (key.kind) {
    case 'machineHours':
      return `hours of ${names.machines[key.machine]}, ${names.windows[key.window]}`;
    case 'crewHours':
      return `hours of ${names.crews[key.crew]}, ${names.windows[key.window]}`;
    case 'feedCommitted':
      return `committed from ${names.feeds[key.feed]}`;
    case 'feedAvailable':
      return `available from ${names.feeds[key.feed]}`;
    case 'outletTier':
      return `${names.outlets[key.outlet]}, price step ${key.tier + 1}`;
    case 'contractMinimum':
      return `monthly minimum of ${names.contracts[key.contract]}`;
    case 'contractMaximum':
      return `monthly maximum of ${names.contracts[key.contract]}`;
    case 'contractCall':
      return `call of ${names.contracts[key.contract]}`;
    case 'termMinimum':
      return `minimum over the term of ${names.contracts[key.contract]}`;
    case 'termMaximum':
      return `maximum over the term of ${names.contracts[key.contract]}`;
    case 'quality':
      return `${key.measure} (${key.bound}) of ${names.contracts[key.contract]}`;
    case 'stockMinimum':
      return `minimum stock of ${names.materials[key.material]}`;
    case 'closingStock':
      return `closing stock of ${names.materials[key.material]}`;
    case 'stockCapacity':
      return `room for ${names.materials[key.material]}`;
    case 'store':
      return `room in ${names.stores[key.store]}`;
    case 'disposalLimit':
      return `what ${names.disposals[key.disposal]} takes`;
  }
}

/** A kind of limit or promise in a few words. */
export const KIND_WORDS: Readonly<Record<LimitKind, string>> = {
  machineHours: 'machine-hours',
  crewHours: "crews' hours",
  feedCommitted: 'committed tires',
  feedAvailable: 'available tires',
  outletTier: 'what a price step takes',
  contractMinimum: 'monthly minimums',
  contractMaximum: 'monthly maximums',
  contractCall: "buyers' calls",
  termMinimum: 'minimums over a term',
  termMaximum: 'maximums over a term',
  quality: 'quality',
  stockMinimum: 'minimum stocks',
  closingStock: 'closing stocks',
  stockCapacity: 'room for a stock',
  store: 'room in a store',
  disposalLimit: 'what a disposal takes',
};

/** The unit of a limit's amount. */
export function limitUnit(unit: LimitUnit, units: ReportUnits): string {
  switch (unit) {
    case 'mass':
      return units.mass;
    case 'machine-hour':
      return 'machine-hour';
    case 'crew-hour':
      return 'crew-hour';
    case 'mass × measure':
      return `${units.mass} × measure`;
  }
}

/** @example limitAmount(12.34, 'mass', units) // '12.3 tonne' */
export function limitAmount(amount: number, unit: LimitUnit, units: ReportUnits): string {
  const digits = unit === 'mass × measure' ? 4 : 1;
  return `${formatFigure(amount, digits)} ${limitUnit(unit, units)}`;
}
