import type { Scenario } from '../../src/scenario/schema/scenario.js';
import { rounded } from './figures.js';
import { seededRandom } from './random.js';

/** A limit that was raised: its pointer, and the scenario with it. */
export interface Raised {
  readonly pointer: string;
  readonly scenario: Scenario;
}

type Path = readonly (string | number)[];
type MassSeries = number | number[] | { from: string; values: number[] };

/** The scenario with one limit raised by a tenth to a half (a machine more): its margin is never less. */
export function withMoreCapacity(scenario: Scenario, seed: number): Scenario {
  const random = seededRandom(seed, 'more capacity');
  return random.pick(raisedLimits(scenario, random.real(1.1, 1.5, 2))).scenario;
}

/** Every limit of the scenario times `factor`, one at a time. */
export function raisedLimits(scenario: Scenario, factor: number): Raised[] {
  return limitsOf(scenario, factor).map(({ path, value }) => ({
    pointer: `/${path.join('/')}`,
    scenario: withFigure(scenario, path, value),
  }));
}

function limitsOf(scenario: Scenario, factor: number): { path: Path; value: MassSeries }[] {
  const raise = (path: Path, series: MassSeries | undefined) =>
    series === undefined ? [] : [{ path, value: times(series, factor) }];
  // Rated load counts on the basis "connected": a machine more may then cost more than it brings.
  const connected = scenario.operation.demand?.basis === 'connected';
  const machines = connected ? [] : scenario.machines;
  return [
    ...machines.map(({ count = 1 }, i) => ({ path: ['machines', i, 'count'], value: count + 1 })),
    ...(scenario.outlets ?? []).flatMap(({ limit, tiers = [] }, i) => [
      ...raise(['outlets', i, 'limit'], limit),
      ...raise(['outlets', i, 'tiers', tiers.length - 1, 'upTo'], tiers.at(-1)?.upTo),
    ]),
    ...(scenario.disposals ?? []).flatMap(({ limit }, i) => raise(['disposals', i, 'limit'], limit)),
    // A table of answers to the fee says itself what is available.
    ...scenario.feeds.flatMap(({ available, response }, i) =>
      Array.isArray(response) ? [] : raise(['feeds', i, 'available'], available),
    ),
    ...scenario.materials.flatMap(({ stock }, i) =>
      raise(['materials', i, 'stock', 'capacity'], stock?.capacity),
    ),
    ...(scenario.stores ?? []).flatMap(({ capacity }, i) => raise(['stores', i, 'capacity'], capacity)),
  ];
}

function withFigure(scenario: Scenario, path: Path, value: MassSeries): Scenario {
  const copy = structuredClone(scenario);
  const owner = path.slice(0, -1).reduce((at: unknown, key) => (at as Record<string, unknown>)[key], copy);
  (owner as Record<string, unknown>)[path.at(-1)!] = value;
  return copy;
}

function times(series: MassSeries, factor: number): MassSeries {
  const scaled = (figure: number) => rounded(figure * factor);
  if (typeof series === 'number') return scaled(series);
  return Array.isArray(series)
    ? series.map(scaled)
    : { from: series.from, values: series.values.map(scaled) };
}
