import { seededRandom } from './random.js';

export const FEATURES = [
  'stock',
  'stores',
  'contracts',
  'termContracts',
  'buyerCalls',
  'quality',
  'indexPrices',
  'demand',
  'response',
  'seriesPrices',
  'discount',
  'otherBases',
  'circuit',
  'separation',
  'sizing',
  'uncertainty',
] as const;

export type Feature = (typeof FEATURES)[number];

export interface GeneratorOptions {
  /** Months of the horizon; drawn from 1 to 3 if absent. */
  readonly months?: number;
  /** small: 1–2 feeds, 3–5 steps, 1–2 windows. full: about 5 feeds, 12 steps, 20 materials, 40 outlets. small if absent. */
  readonly size?: 'small' | 'full';
  /** Crews by the shift or by the month, and a demand basis "connected": whole numbers. false if absent. */
  readonly integers?: boolean;
  /** Hard minimums, disposal limits and missing exits that may leave no feasible plan. false if absent: a plan exists by construction. */
  readonly tight?: boolean;
  /** Ties on purpose: equal prices, equal throughputs, a capacity that the feed hits exactly. false if absent. */
  readonly degenerate?: boolean;
  readonly massUnit?: 'tonne' | 'short ton';
  /** Multiplies all money. 1 if absent. */
  readonly currencyScale?: number;
  /** What is absent is drawn, except `uncertainty`, which is left out. */
  readonly features?: Readonly<Partial<Record<Feature, boolean>>>;
}

/** The options with all that was left open drawn. */
export interface Settings {
  readonly seed: number;
  readonly months: number;
  readonly firstMonth: string;
  readonly size: 'small' | 'full';
  readonly integers: boolean;
  readonly tight: boolean;
  readonly degenerate: boolean;
  readonly massUnit: 'tonne' | 'short ton';
  readonly has: Readonly<Record<Feature, boolean>>;
}

const NEEDS_CONTRACTS: readonly Feature[] = ['termContracts', 'buyerCalls', 'quality', 'indexPrices'];

export function settingsOf(seed: number, options: GeneratorOptions): Settings {
  const random = seededRandom(seed, 'settings');
  const size = options.size ?? 'small';
  const months = random.integer(1, 3);
  const firstMonth = `${random.integer(2027, 2028)}-${String(random.integer(1, 12)).padStart(2, '0')}`;
  const has = Object.fromEntries(
    FEATURES.map((feature) => {
      const drawn = random.chance(size === 'full' ? 0.8 : 0.5) && feature !== 'uncertainty';
      return [feature, options.features?.[feature] ?? drawn];
    }),
  ) as Record<Feature, boolean>;
  has.stores = has.stores && has.stock;
  for (const feature of NEEDS_CONTRACTS) has[feature] = has[feature] && has.contracts;
  return {
    seed,
    months: options.months ?? months,
    firstMonth,
    size,
    integers: options.integers ?? false,
    tight: options.tight ?? false,
    degenerate: options.degenerate ?? false,
    massUnit: options.massUnit ?? 'tonne',
    has,
  };
}
