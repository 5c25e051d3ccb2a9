import { readNumber } from './trial.js';

/** An offer as a form holds it: a contract, and what in the form is no figure, by field. */
export interface FormOffer {
  readonly contract: Readonly<Record<string, unknown>>;
  /** By the field's name. */
  readonly problems: Readonly<Record<string, string>>;
}

type Members = Readonly<Record<string, unknown>>;

/** A figure of an offer that the form holds: where it stands, and what it is. */
export interface TermField {
  readonly name: string;
  readonly path: readonly string[];
  readonly label: string;
  readonly kind: 'price' | 'mass' | 'money by mass' | 'days' | 'share' | 'text' | 'date';
}

/** The terms that every offer may have, besides those that it has already. */
const TERMS: readonly TermField[] = [
  { name: 'from', path: ['from'], label: 'From', kind: 'date' },
  { name: 'to', path: ['to'], label: 'To', kind: 'date' },
  { name: 'min', path: ['monthly', 'min'], label: 'At least, a month', kind: 'mass' },
  { name: 'max', path: ['monthly', 'max'], label: 'At most, a month', kind: 'mass' },
  {
    name: 'charge',
    path: ['shortfall', 'charge'],
    label: 'Charge for what is missed',
    kind: 'money by mass',
  },
  { name: 'freight', path: ['freight'], label: 'Freight', kind: 'money by mass' },
  { name: 'packing', path: ['packing'], label: 'Packing', kind: 'money by mass' },
  { name: 'paymentDays', path: ['paymentDays'], label: 'Paid after', kind: 'days' },
];

/** The fields of an offer's form, its price first. */
export function termFields(offer: Members): TermField[] {
  return [...priceFields(offer.price, ['price']), ...TERMS, ...qualityFields(offer.quality)];
}

/** The figure that an offer has in a field; '' where it has none. */
export function termText(offer: Members, { path }: TermField): string {
  const value = path.reduce<unknown>((at, key) => members(at)[key], offer);
  if (typeof value === 'number' || typeof value === 'string') return String(value);
  const { amount } = members(value);
  return typeof amount === 'number' ? String(amount) : '';
}

/** What a price is written in: 'lb' where it says so, else the scenario's mass unit. */
export function priceBasis(offer: Members, { path }: TermField): string | undefined {
  const value = path.reduce<unknown>((at, key) => members(at)[key], offer);
  const { per } = members(value);
  return typeof per === 'string' ? per : undefined;
}

/** An offer with the terms that a form sends; a field that is left empty takes its term away. */
export function offerOf(base: Members, query: URLSearchParams): FormOffer {
  const problems: Record<string, string> = {};
  let contract: Members = base;
  for (const name of ['name', 'buyer'] as const) {
    const text = query.get(name)?.trim();
    if (text !== undefined && text !== '') contract = { ...contract, [name]: text };
  }
  const materials = query.getAll('material');
  if (materials.length > 0) contract = { ...contract, materials };
  for (const field of termFields(base)) {
    const text = query.get(field.name);
    if (text === null) continue;
    const read = readTerm(field, text);
    if (read === 'no figure') problems[field.name] = 'Write a number, such as 1234.5.';
    else contract = withTerm(contract, field.path, read) as Members;
  }
  return { contract, problems };
}

function readTerm({ kind }: TermField, text: string): number | string | undefined | 'no figure' {
  const trimmed = text.trim();
  if (trimmed === '') return undefined;
  return kind === 'text' || kind === 'date' ? trimmed : (readNumber(trimmed) ?? 'no figure');
}

function withTerm(
  value: unknown,
  [key, ...rest]: readonly string[],
  term: number | string | undefined,
): unknown {
  if (key === undefined) {
    const { per } = members(value);
    return per === undefined || term === undefined ? term : { amount: term, per };
  }
  if (Array.isArray(value)) {
    return value.map((entry, i) => (String(i) === key ? withTerm(entry, rest, term) : entry));
  }
  const changed = withTerm(members(value)[key], rest, term);
  const { [key]: _, ...others } = members(value);
  const isEmpty =
    changed === undefined ||
    (typeof changed === 'object' && changed !== null && Object.keys(changed).length === 0);
  return isEmpty ? others : { ...members(value), [key]: changed };
}

function priceFields(price: unknown, path: readonly string[]): TermField[] {
  const { base, byMaterial, per, floor, ceiling, passThrough } = members(price);
  if (byMaterial !== undefined) {
    return Object.keys(members(byMaterial)).map((material) => ({
      name: ['price', material].join('-'),
      path: [...path, 'byMaterial', material],
      label: `Price of ${material}`,
      kind: 'price',
    }));
  }
  if (base === undefined || per !== undefined) {
    return [
      {
        name: path.length === 1 ? 'price' : 'base',
        path,
        label: path.length === 1 ? 'Price' : 'Price, base',
        kind: 'price',
      },
    ];
  }
  const part = (name: string, label: string, kind: TermField['kind'], value: unknown): TermField[] =>
    value === undefined ? [] : [{ name, path: ['price', name], label, kind }];
  return [
    ...priceFields(base, ['price', 'base']),
    ...part('passThrough', 'Of the index passed on', 'share', passThrough),
    ...part('floor', 'Floor', 'price', floor),
    ...part('ceiling', 'Ceiling', 'price', ceiling),
  ];
}

function qualityFields(quality: unknown): TermField[] {
  if (!Array.isArray(quality)) return [];
  return quality.flatMap((limit, i): TermField[] =>
    (['min', 'max'] as const).flatMap((side) => {
      const { measure, [side]: value } = members(limit);
      if (value === undefined) return [];
      const word = side === 'min' ? 'at least' : 'at most';
      return [
        {
          name: `quality-${i}-${side}`,
          path: ['quality', String(i), side],
          label: `${String(measure)}, ${word}`,
          kind: 'share',
        },
      ];
    }),
  );
}

function members(value: unknown): Members {
  return typeof value === 'object' && value !== null ? (value as Members) : {};
}
