import type { Parameter } from '../../../src/analysis/variant/parameter.js';
import type { Scenario } from '../../../src/scenario/schema/scenario.js';
import { generateScenario } from '../../generate/plant.js';
import { seededRandom } from '../../generate/random.js';

/** A plant, one of its numbers and a range for it. */
export interface SweepCase {
  readonly seed: number;
  readonly document: Scenario;
  readonly parameter: Parameter;
  readonly from: number;
  readonly to: number;
}

/** A case whose number reaches only the objective, or only right sides; a third of the plants are degenerate. */
export function exactCase(seed: number): SweepCase {
  const random = seededRandom(seed, 'sweep case');
  const document = generateScenario(seed, { degenerate: seed % 3 === 0, features: { response: false } });
  const quantities = masses(document);
  const candidates = quantities.length > 0 && random.chance(0.5) ? quantities : prices(document);
  const { pointers, low, high } = random.pick(candidates);
  return { seed, document, parameter: { pointers, kind: 'factor' }, from: low, to: high };
}

interface Candidate {
  readonly pointers: readonly string[];
  readonly low: number;
  readonly high: number;
}

function prices(scenario: Scenario): Candidate[] {
  const outlets = (scenario.outlets ?? []).map(({ id, tiers }) => ({
    pointers:
      tiers === undefined ? [`/outlets/${id}/price`] : tiers.map((_, i) => `/outlets/${id}/tiers/${i}/price`),
    low: 0,
    high: 4,
  }));
  const feeds = scenario.feeds.map(({ id }) => ({ pointers: [`/feeds/${id}/tippingFee`], low: 0, high: 3 }));
  const disposals = (scenario.disposals ?? []).map(({ id }) => ({
    pointers: [`/disposals/${id}/charge`],
    low: 0,
    high: 5,
  }));
  const power = {
    pointers: scenario.operation.windows.map(({ id }) => `/operation/windows/${id}/powerPrice`),
    low: 0,
    high: 6,
  };
  const wages = (scenario.crews ?? []).map(({ id }) => ({
    pointers: [`/crews/${id}/wage`],
    low: 0,
    high: 5,
  }));
  return [...outlets, ...feeds, ...disposals, power, ...wages];
}

function masses(scenario: Scenario): Candidate[] {
  const feeds = scenario.feeds.map(({ id, committed = 0, available }) => ({
    pointers: [`/feeds/${id}/available`],
    low: typeof committed === 'number' && typeof available === 'number' ? committed / available : 1,
    high: 2.5,
  }));
  const outlets = (scenario.outlets ?? []).flatMap(({ id, limit }) =>
    limit === undefined ? [] : [{ pointers: [`/outlets/${id}/limit`], low: 0, high: 3 }],
  );
  const contracts = (scenario.contracts ?? []).flatMap(({ id, monthly }) =>
    monthly?.min === undefined ? [] : [{ pointers: [`/contracts/${id}/monthly/min`], low: 0, high: 2 }],
  );
  const committed = scenario.feeds.map(({ id }) => ({
    pointers: [`/feeds/${id}/committed`],
    low: 0,
    high: 3,
  }));
  return [...feeds, ...outlets, ...contracts, ...committed].filter(({ pointers }) =>
    hasNumber(scenario, pointers[0]),
  );
}

function hasNumber(scenario: Scenario, pointer: string): boolean {
  const [, list, id, key] = pointer.split('/');
  const entry = (scenario as unknown as Record<string, { id: string }[]>)[list].find((one) => one.id === id);
  return entry !== undefined && key in entry;
}
