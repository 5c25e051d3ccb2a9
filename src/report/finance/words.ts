import type { Limit } from '../../analysis/sweep/feasible-range.js';
import type { PlanMove, QuantityKind } from '../../analysis/variant/plan-quantities.js';
import type { ColumnKey, RowKey } from '../../planning/keys.js';
import type { Plant } from '../../plant/plant.js';
import { formatFigure } from '../figure.js';
import { type NameById, type Names, namesOf } from '../names.js';

const NOUNS: Readonly<Record<QuantityKind, readonly [noun: string, names: keyof Names]>> = {
  receive: ['feed', 'feeds'],
  run: ['step', 'steps'],
  sell: ['outlet', 'outlets'],
  deliver: ['contract', 'contracts'],
  missed: ['missed on contract', 'contracts'],
  dispose: ['disposal', 'disposals'],
  stock: ['stock at month ends of', 'materials'],
  attended: ['hours of crew', 'crews'],
};

const MOST_MOVES = 6;

/**
 * What moves from one plan to another, in words.
 *
 * @example movesInWords(moves, plant) // 'outlet Turf 120.0 → 80.0 tonne; step Milling 300.0 → 260.0 tonne'
 */
export function movesInWords(moves: readonly PlanMove[], plant: Plant, perUnit = false): string {
  if (moves.length === 0) return 'the plan stays as it is';
  const names = namesOf(plant);
  const said = moves.slice(0, MOST_MOVES).map(({ kind, id, window, month, before, after }) => {
    const [noun, list] = NOUNS[kind];
    const unit = kind === 'attended' ? 'h' : plant.units.mass;
    const where = window === undefined ? '' : `, ${nameIn(names.windows, window)},`;
    const when = month === undefined ? '' : ` in ${plant.months[month].label}`;
    return `${noun} ${nameIn(names[list], id)}${where}${when} ${figure(before)} → ${figure(after)} ${unit}`;
  });
  const more = moves.length - said.length;
  const rest = more > 0 ? `; and ${more} more` : '';
  return `${perUnit ? 'for each further unit: ' : ''}${said.join('; ')}${rest}`;
}

/** A limit that ends what is feasible, in words. */
export function limitInWords(limit: Limit, plant: Plant): string {
  return limit.kind === 'row' ? rowInWords(limit.row, plant) : columnInWords(limit.column, plant);
}

function rowInWords(key: RowKey, plant: Plant): string {
  const names = namesOf(plant);
  const when = 'month' in key ? ` in ${plant.months[key.month].label}` : '';
  switch (key.kind) {
    case 'balance':
      return `what comes in and goes out of ${nameIn(names.materials, key.material)}${when}`;
    case 'machine':
      return `hours of ${nameIn(names.machines, key.machine)}, ${nameIn(names.windows, key.window)}${when}`;
    case 'crew':
    case 'attendance':
    case 'connected':
      return `hours of crew ${nameIn(names.crews, key.crew)}, ${nameIn(names.windows, key.window)}${when}`;
    case 'peak':
      return `peak load, ${nameIn(names.windows, key.window)}${when}`;
    case 'contractMinimum':
    case 'missedOnlyWhenShort':
    case 'notBoth':
      return `monthly minimum of ${nameIn(names.contracts, key.contract)}${when}`;
    case 'contractMaximum':
      return `monthly maximum of ${nameIn(names.contracts, key.contract)}${when}`;
    case 'called':
      return `call of ${nameIn(names.contracts, key.contract)}${when}`;
    case 'termMinimum':
      return `minimum over the term of ${nameIn(names.contracts, key.contract)}`;
    case 'termMaximum':
      return `maximum over the term of ${nameIn(names.contracts, key.contract)}`;
    case 'quality':
      return `${key.measure} of ${nameIn(names.contracts, key.contract)}${when}`;
    case 'store':
      return `room in ${nameIn(names.stores, key.store)}${when}`;
    case 'disposal':
      return `limit of ${nameIn(names.disposals, key.disposal)}${when}`;
  }
}

function columnInWords(key: ColumnKey, plant: Plant): string {
  const names = namesOf(plant);
  const when = 'month' in key ? ` in ${plant.months[key.month].label}` : '';
  switch (key.kind) {
    case 'receive':
      return `tonnes of ${nameIn(names.feeds, key.feed)}${when}`;
    case 'sell':
      return `limit of ${nameIn(names.outlets, key.outlet)}${when}`;
    case 'stock':
      return `stock of ${nameIn(names.materials, key.material)}${when}`;
    case 'missed':
    case 'missedTerm':
    case 'short':
    case 'deliver':
      return `what may be missed on ${nameIn(names.contracts, key.contract)}${when}`;
    case 'attended':
    case 'shifts':
    case 'open':
    case 'on':
      return `hours of crew ${nameIn(names.crews, key.crew)}, ${nameIn(names.windows, key.window)}${when}`;
    case 'run':
      return `runs of ${nameIn(names.steps, key.step)}${when}`;
    case 'dispose':
      return `tonnes to ${nameIn(names.disposals, key.disposal)}${when}`;
    case 'peak':
      return `peak load${when}`;
  }
}

/** Several limits, the first few of them. */
export function limitsInWords(limits: readonly Limit[], plant: Plant): string {
  const said = [...new Set(limits.map((limit) => limitInWords(limit, plant)))];
  if (said.length === 0) return 'all the limits together';
  const few = said.slice(0, 5);
  return `${few.join('; ')}${said.length > few.length ? `; and ${said.length - few.length} more` : ''}`;
}

function nameIn(names: NameById, id: string): string {
  return names[id] ?? id;
}

/** A smaller mass or hour is the rounding of none. */
const NOTHING = 5e-4;

function figure(value: number): string {
  const size = Math.abs(value);
  if (size < NOTHING) return formatFigure(0, 1);
  return formatFigure(value, size < 1 ? 3 : 1);
}
