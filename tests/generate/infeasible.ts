import type { Contract, Scenario } from '../../src/scenario/schema/scenario.js';
import { generateScenario } from './plant.js';
import { seededRandom } from './random.js';

export const CONFLICTS = [
  'committed feed above the hours',
  'hard minimum above the supply',
  'two hard minimums above the supply together',
  'hard term minimum above the supply',
  'call of a buyer above the supply',
  'quality that no material reaches',
  'closing stock above the supply',
  'closing stocks above the store',
  'waste above the disposal limit',
  'minimum stock above what the first month brings',
  'no hours in the month',
] as const;

export type Conflict = (typeof CONFLICTS)[number];

export interface InfeasibleScenario {
  readonly scenario: Scenario;
  readonly conflict: Conflict;
  /** Pointers with ids to figures that cannot all hold; others of the scenario may take part in the conflict. */
  readonly planted: readonly string[];
}

type Planting = (scenario: Scenario) => string[];

/** A small plant in which one conflict is planted. Without it, a plan exists by construction. */
export function generateInfeasibleScenario(seed: number, conflict?: Conflict): InfeasibleScenario {
  const random = seededRandom(seed, 'infeasible');
  const drawn = random.pick(CONFLICTS);
  const kind = conflict ?? drawn;
  const features = { stock: false, contracts: false, stores: false, response: false, seriesPrices: false };
  const scenario = generateScenario(seed, { features });
  return { scenario, conflict: kind, planted: PLANTINGS[kind](scenario) };
}

const PLANTINGS: Readonly<Record<Conflict, Planting>> = {
  'committed feed above the hours': (scenario) => {
    const [feed] = scenario.feeds;
    feed!.committed = 1e5;
    feed!.available = 2e5;
    return [`/feeds/${feed!.id}/committed`, '/machines/shredder/count'];
  },
  'hard minimum above the supply': (scenario) => {
    scenario.contracts = [hardContract(scenario, 'hard', 'granulate-coarse', supplyOf(scenario) * 1.2)];
    return ['/contracts/hard/monthly/min'];
  },
  'two hard minimums above the supply together': (scenario) => {
    const supply = supplyOf(scenario);
    scenario.contracts = [
      hardContract(scenario, 'hard-a', 'shred', supply * 0.8),
      hardContract(scenario, 'hard-b', 'wire-free', supply * 0.3),
    ];
    return ['/contracts/hard-a/monthly/min', '/contracts/hard-b/monthly/min'];
  },
  'hard term minimum above the supply': (scenario) => {
    const { monthly: _, ...contract } = hardContract(scenario, 'term', 'wire-free', 0);
    const min = Math.ceil(supplyOf(scenario) * scenario.horizon.months * 1.1);
    scenario.contracts = [{ ...contract, term: { min, max: min * 2 } }];
    return ['/contracts/term/term/min'];
  },
  'call of a buyer above the supply': (scenario) => {
    const { monthly: _, ...contract } = hardContract(scenario, 'called', 'shred', 0);
    const expected = Math.ceil(supplyOf(scenario) * 1.1);
    scenario.contracts = [{ ...contract, call: { by: 'buyer', expected } }];
    return ['/contracts/called/call/expected'];
  },
  'quality that no material reaches': (scenario) => {
    const contract = hardContract(scenario, 'pure', 'granulate-coarse', 5);
    scenario.contracts = [{ ...contract, quality: [{ measure: 'steel', max: 0.00001 }] }];
    return ['/contracts/pure/monthly/min', '/contracts/pure/quality/0/max'];
  },
  'closing stock above the supply': (scenario) => {
    const min = Math.ceil(supplyOf(scenario) * scenario.horizon.months * 1.1);
    materialOf(scenario, 'shred').stock = { closing: { min } };
    return ['/materials/shred/stock/closing/min'];
  },
  'closing stocks above the store': (scenario) => {
    materialOf(scenario, 'shred').stock = { closing: { min: 8 } };
    materialOf(scenario, 'wire-free').stock = { closing: { min: 7 } };
    scenario.stores = [{ id: 'hall', materials: ['shred', 'wire-free'], capacity: 12, note: 'permit limit' }];
    return [
      '/materials/shred/stock/closing/min',
      '/materials/wire-free/stock/closing/min',
      '/stores/hall/capacity',
    ];
  },
  'waste above the disposal limit': (scenario) => {
    // Every tire leaves at least a hundredth of residue.
    const [feed] = scenario.feeds;
    feed!.committed = Math.max(200, feed!.committed as number);
    feed!.available = feed!.committed * 1.5;
    scenario.disposals = scenario.disposals!.map((disposal) => {
      const taken = disposal.materials.includes('residue');
      return taken ? { ...disposal, limit: 0.5 } : disposal;
    });
    return [`/feeds/${feed!.id}/committed`, '/disposals/landfill/limit'];
  },
  'minimum stock above what the first month brings': (scenario) => {
    materialOf(scenario, 'shred').stock = { min: Math.ceil(supplyOf(scenario) * 1.1), closing: { min: 0 } };
    return ['/materials/shred/stock/min'];
  },
  'no hours in the month': (scenario) => {
    const { firstMonth } = scenario.horizon;
    const days = Array.from({ length: 31 }, (_, day) => `${firstMonth}-${String(day + 1).padStart(2, '0')}`);
    const [feed] = scenario.feeds;
    feed!.committed = Math.max(50, feed!.committed as number);
    feed!.available = feed!.committed * 1.5;
    scenario.operation.closed = days.filter(isDate);
    for (const machine of scenario.machines) delete machine.maintenanceHours;
    return [`/feeds/${feed!.id}/committed`, '/operation/closed'];
  },
};

/** Mass a month that all feeds together bring at most. */
function supplyOf(scenario: Scenario): number {
  return scenario.feeds.reduce((sum, { available }) => sum + (available as number), 0);
}

function materialOf(scenario: Scenario, id: string): Scenario['materials'][number] {
  return scenario.materials.find((material) => material.id === id)!;
}

/** In force over the whole horizon to the day, so that nothing of it is prorated. */
function hardContract({ horizon }: Scenario, id: string, material: string, min: number): Contract {
  const year = Number(horizon.firstMonth.slice(0, 4));
  return {
    id,
    buyer: 'Invented buyer who insists',
    materials: [material],
    from: `${horizon.firstMonth}-01`,
    to: lastDay(horizon, year),
    price: 100,
    monthly: { min: Math.ceil(min) },
  };
}

function lastDay({ firstMonth, months }: Scenario['horizon'], year: number): string {
  return new Date(Date.UTC(year, Number(firstMonth.slice(5, 7)) - 1 + months, 0)).toISOString().slice(0, 10);
}

function isDate(date: string): boolean {
  const time = Date.parse(`${date}T00:00:00Z`);
  return !Number.isNaN(time) && new Date(time).toISOString().startsWith(date);
}
