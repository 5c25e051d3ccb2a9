import { figuresOf, type Parameter } from '../../analysis/variant/parameter.js';
import { parsePointer, resolvePointer, toIdPointer } from '../../scenario/pointer.js';
import type { ReportUnits } from '../figure.js';

/** A parameter for people: what it is called and its unit, '' for a plain factor. */
export interface ParameterWords {
  readonly name: string;
  readonly unit: string;
}

const MASSES = [
  'available',
  'committed',
  'limit',
  'upTo',
  'min',
  'max',
  'capacity',
  'opening',
  'delivered',
  'expected',
];
const RATES = [
  'price',
  'tippingFee',
  'committedFee',
  'haulage',
  'freight',
  'packing',
  'charge',
  'termCharge',
  'wear',
  'holdingCost',
  'base',
  'floor',
  'ceiling',
  'value',
  'values',
];

/** @example parameterWords(document, parameter, units) // { name: '/outlets/turf/price', unit: 'EUR/tonne' } */
export function parameterWords(document: unknown, parameter: Parameter, units: ReportUnits): ParameterWords {
  const ids = parameter.pointers.map((pointer) => toIdPointer(document, pointer) ?? pointer);
  const name = ids.length > 3 ? `${ids[0]} and ${ids.length - 1} more` : ids.join(', ');
  if (parameter.kind === 'factor') return { name: `factor on ${name}`, unit: '' };
  return { name, unit: unitAt(document, parameter.pointers[0], units) };
}

/** @example axisTitle({ name: '/outlets/turf/price', unit: 'EUR/tonne' }) // '/outlets/turf/price (EUR/tonne)' */
export function axisTitle({ name, unit }: ParameterWords): string {
  return unit === '' ? name : `${name} (${unit})`;
}

function unitAt(document: unknown, pointer: string, { mass, currency }: ReportUnits): string {
  const found = figuresOf(document, { pointers: [pointer] });
  if (!found.ok) return '';
  const path = found.figures[0].path;
  const last = path.at(-1);
  if (last === 'amount') {
    const rate = resolvePointer(document, `/${path.slice(0, -1).join('/')}`)?.value as
      | { per?: string }
      | undefined;
    return `${currency}/${rate?.per ?? mass}`;
  }
  const key = (parsePointer(pointer) ?? []).filter((token) => !/^\d+$/.test(token)).at(-1) ?? '';
  if (key === 'powerPrice') return `${currency}/kWh`;
  if (key === 'wage') return `${currency}/h`;
  if (key === 'charge' && pointer.includes('/demand')) return `${currency}/kW`;
  if (key === 'perMonth') return `${currency}/month`;
  if (key === 'throughput' || key === 'passThroughput') return `${mass}/h`;
  if (key === 'energy') return `kWh/${mass}`;
  if (key === 'maintenanceHours') return 'h/month';
  if (isOfPoints(document, pointer)) return 'points';
  if (RATES.includes(key)) return `${currency}/${mass}`;
  if (MASSES.includes(key) && !pointer.includes('/quality/')) return mass;
  return '';
}

/** Whether a pointer leads into an index that is quoted in points. */
function isOfPoints(document: unknown, pointer: string): boolean {
  const [list, entry] = parsePointer(pointer) ?? [];
  const index = list === 'indices' ? resolvePointer(document, `/indices/${entry}`)?.value : undefined;
  return (index as { kind?: string } | undefined)?.kind === 'points';
}
