import type { Scenario } from '../../src/scenario/schema/scenario.js';
import { largestRate } from './money-scale.js';
import { type Random, seededRandom } from './random.js';

export const UNUSED_OPTIONS = [
  'outlet at a hopeless price',
  'contract without a minimum at a hopeless price',
  'disposal at a hopeless charge',
  'feed of nothing',
  'feed at a hopeless fee',
  'idle machine and crew',
  'step with hopeless wear',
  'index that no price follows',
] as const;

export type UnusedOption = (typeof UNUSED_OPTIONS)[number];

/** A price so bad that it outweighs any sum of the scenario's own figures along the ladder. */
const HOPELESS = 300;

/** The scenario with one option more that no best plan uses (where a plan exists without it): the margin stays. */
export function withUnusedOption(scenario: Scenario, seed: number, option?: UnusedOption): Scenario {
  const random = seededRandom(seed, 'unused option');
  const drawn = random.pick(UNUSED_OPTIONS);
  const copy = structuredClone(scenario);
  add(copy, random, option ?? drawn, HOPELESS * Math.max(1e-3, largestRate(scenario)));
  return copy;
}

function add(scenario: Scenario, random: Random, option: UnusedOption, hopeless: number): void {
  const material = random.pick(scenario.materials).id;
  const step = random.pick(scenario.steps);
  const feed = random.pick(scenario.feeds);
  switch (option) {
    case 'outlet at a hopeless price':
      scenario.outlets = [...(scenario.outlets ?? []), { id: 'unused-outlet', material, price: -hopeless }];
      return;
    case 'contract without a minimum at a hopeless price':
      scenario.contracts = [...(scenario.contracts ?? []), hopelessContract(scenario, material, hopeless)];
      return;
    case 'disposal at a hopeless charge':
      scenario.disposals = [
        ...(scenario.disposals ?? []),
        { id: 'unused-disposal', materials: [material], charge: hopeless },
      ];
      return;
    case 'feed of nothing':
      scenario.feeds.push({ id: 'unused-feed', material: feed.material, tippingFee: hopeless, available: 0 });
      return;
    case 'feed at a hopeless fee':
      scenario.feeds.push({
        id: 'unused-feed',
        material: feed.material,
        tippingFee: -hopeless,
        available: 500,
      });
      return;
    case 'idle machine and crew':
      scenario.crews = [
        ...(scenario.crews ?? []),
        { id: 'unused-crew', people: 2, wage: 30, staffing: 'hourly' },
      ];
      scenario.machines.push({ id: 'unused-machine', crew: 'unused-crew' });
      return;
    case 'step with hopeless wear':
      scenario.steps.push({ ...step, id: 'unused-step', energy: 0, wear: hopeless });
      return;
    case 'index that no price follows':
      scenario.indices = [...(scenario.indices ?? []), { id: 'unused-index', base: 100, values: 120 }];
      return;
  }
}

function hopelessContract({ horizon }: Scenario, material: string, hopeless: number) {
  return {
    id: 'unused-contract',
    buyer: 'Invented buyer',
    materials: [material],
    from: `${horizon.firstMonth}-01`,
    to: `${Number(horizon.firstMonth.slice(0, 4)) + 6}-12-31`,
    price: -hopeless,
    monthly: { max: 1000 },
  };
}
