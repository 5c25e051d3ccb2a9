/** Shares by mass, by constituent. */
type Composition = Readonly<Record<string, number>>;

/** A published figure that a scenario may refer to instead of typing it. */
export interface StarterFigure<T> {
  readonly id: string;
  readonly value: T;
  readonly source: string;
  /** `read`: seen in the source; `from memory`: not checked against it; `invented`: from no source. */
  readonly status: 'read' | 'from memory' | 'invented';
  readonly note?: string;
}

const TEXTBOOK_2005 =
  'Waste Management Practices: Municipal, Hazardous, and Industrial (2005), Table 6.11, p. 160';
const GUIDELINES_2011 =
  'Basel Convention, technical guidelines on used and waste pneumatic tyres (UNEP/CHW.10/6/Add.1/Rev.1, 2011), table of tyre composition';
const SHRED_ANALYSES = 'Aliapur wiki (CC BY 4.0), page on shred, net calorific value';
const FUEL_FACTS = 'Pollution Prevention Infohouse, fact sheet on tire-derived fuel';

/** Shares by mass of rubber (carbon black and additives included), steel, fiber and dirt; they add up to 1. */
export const STARTER_ASSAYS: readonly StarterFigure<Composition>[] = [
  {
    id: 'car-tires-2005',
    value: { rubber: 0.69, steel: 0.145, fiber: 0.165, dirt: 0 },
    source: TEXTBOOK_2005,
    status: 'read',
    note: 'Natural 14, synthetic 27, carbon black 28, steel 14 to 15, fabric, fillers and others 16 to 17: middles, the last counted as fiber.',
  },
  {
    id: 'truck-tires-2005',
    value: { rubber: 0.69, steel: 0.145, fiber: 0.165, dirt: 0 },
    source: TEXTBOOK_2005,
    status: 'read',
    note: 'Natural 27, synthetic 14, carbon black 28, steel 14 to 15, others 16 to 17: middles, the last counted as fiber.',
  },
  {
    id: 'mixed-tires',
    value: { rubber: 0.75, steel: 0.15, fiber: 0.1, dirt: 0 },
    source: "European Recycling Industries' Confederation, web page on tyres",
    status: 'read',
  },
  {
    id: 'car-tires-2011',
    value: { rubber: 0.78, steel: 0.165, fiber: 0.055, dirt: 0 },
    source: GUIDELINES_2011,
    status: 'from memory',
    note: 'Rubber 47, carbon black 21.5, zinc oxide 1, sulfur 1, additives 7.5; metal 16.5; textile 5.5.',
  },
  {
    id: 'truck-tires-2011',
    value: { rubber: 0.75, steel: 0.25, fiber: 0, dirt: 0 },
    source: GUIDELINES_2011,
    status: 'from memory',
    note: 'Rubber 45, carbon black 22, zinc oxide 2, sulfur 1, additives 5; metal 25.',
  },
  {
    id: 'car-tires-example',
    value: { rubber: 0.7, steel: 0.15, fiber: 0.1, dirt: 0.05 },
    source: 'Invented, inside the ranges of the published compositions; dirt included',
    status: 'invented',
  },
  {
    id: 'truck-tires-example',
    value: { rubber: 0.7, steel: 0.22, fiber: 0.03, dirt: 0.05 },
    source: 'Invented, inside the ranges of the published compositions; dirt included',
    status: 'invented',
  },
];

/** kg a tire. */
export const STARTER_TIRE_MASSES: readonly StarterFigure<number>[] = [
  { id: 'scrap-car-tire', value: 9.0718474, source: TEXTBOOK_2005, status: 'read', note: '20 lb' },
  { id: 'scrap-truck-tire', value: 45.359237, source: TEXTBOOK_2005, status: 'read', note: '100 lb' },
  { id: 'new-car-tire', value: 11.33980925, source: TEXTBOOK_2005, status: 'read', note: '25 lb' },
  { id: 'new-truck-tire', value: 54.4310844, source: TEXTBOOK_2005, status: 'read', note: '120 lb' },
  {
    id: 'scrap-light-tire-2009',
    value: 10.205828325,
    source: 'Rubber Manufacturers Association, 9th biennial report on scrap tire markets (2009)',
    status: 'from memory',
    note: '22.5 lb, passenger and light truck',
  },
];

/** MJ/kg, lower heating value. */
export const STARTER_HEATING_VALUES: readonly StarterFigure<number>[] = [
  { id: 'car-shred-2009', value: 30.2, source: SHRED_ANALYSES, status: 'read', note: 'Wire included.' },
  { id: 'car-shred-2015', value: 28.4, source: SHRED_ANALYSES, status: 'read', note: 'Wire included.' },
  { id: 'truck-shred-2009', value: 26.4, source: SHRED_ANALYSES, status: 'read', note: 'Wire included.' },
  { id: 'truck-shred-2015', value: 28.5, source: SHRED_ANALYSES, status: 'read', note: 'Wire included.' },
  { id: 'tire-fuel-low', value: 27.912, source: FUEL_FACTS, status: 'read', note: '12,000 Btu/lb' },
  { id: 'tire-fuel-high', value: 37.216, source: FUEL_FACTS, status: 'read', note: '16,000 Btu/lb' },
  { id: 'tire-rubber', value: 34.89, source: FUEL_FACTS, status: 'read', note: '15,000 Btu/lb' },
  {
    id: 'whole-tires-spain',
    value: 31.401,
    source: 'Spanish producer-responsibility body, web page on energy recovery',
    status: 'read',
    note: '7,500 kcal/kg',
  },
];

/** Size classes of PAS 107:2007, Table 5, in mm; read. For choosing openings: no scenario refers to them. */
export const SIZE_CLASSES: readonly {
  readonly id: string;
  readonly name: string;
  /** mm */
  readonly over: number;
  /** mm; absent: no upper limit. */
  readonly under?: number;
}[] = [
  { id: 'cuts', name: 'cuts', over: 300 },
  { id: 'shred', name: 'shred', over: 50, under: 300 },
  { id: 'chips', name: 'chips', over: 10, under: 50 },
  { id: 'granulate', name: 'granulate', over: 1, under: 10 },
  { id: 'powder', name: 'powder', over: 0, under: 1 },
  { id: 'fine-powder', name: 'fine powder', over: 0, under: 0.5 },
];

export const STARTER_FIGURES = {
  assay: STARTER_ASSAYS,
  tireMass: STARTER_TIRE_MASSES,
  heatingValue: STARTER_HEATING_VALUES,
} as const;

export type StarterField = keyof typeof STARTER_FIGURES;
