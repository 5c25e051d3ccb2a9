import type { Feed, Machine, Scenario, Step } from '../../src/scenario/schema/scenario.js';
import { type Baseline, baselineOf } from './baseline.js';
import { drawIndices } from './contract-terms.js';
import { drawContracts } from './contracts.js';
import { drawMaterials, drawSteps, drawTemplates } from './conversion.js';
import { rounded } from './figures.js';
import { machineHours } from './hours.js';
import { drawCrewsAndMachines, drawOperation } from './operation.js';
import { drawOutlets } from './outlets.js';
import { seededRandom } from './random.js';
import { type GeneratorOptions, type Settings, settingsOf } from './settings.js';
import { netThroughput } from './step-shares.js';
import { addStocks, drawStores } from './stock.js';
import {
  addResponses,
  drawDisposals,
  drawFeeds,
  drawFixedCosts,
  drawSources,
  sourceMaterial,
} from './supply.js';
import { withMoneyScaled } from './transforms.js';
import { drawUncertainty } from './uncertainty.js';

export type { Feature, GeneratorOptions } from './settings.js';

/**
 * A tire recycler that nobody owns, drawn from a seed: the same seed and options give the same document.
 * Unless `tight`, a plan exists by construction, and it is bounded since all feeds are.
 */
export function generateScenario(seed: number, options: GeneratorOptions = {}): Scenario {
  const settings = settingsOf(seed, options);
  const sources = drawSources(settings);
  const templates = drawTemplates(settings, sources.map(sourceMaterial));
  const bare = drawMaterials(settings, templates);
  const steps = drawSteps(settings, templates);
  const { crews, machines } = drawCrewsAndMachines(settings, templates);
  const operation = drawOperation(settings);
  const horizon = { firstMonth: settings.firstMonth, months: settings.months };
  const total = drawTotal(settings, steps, machines, operation, horizon);
  const drawn = drawFeeds(settings, sources, bare, total);
  const baseline = baselineOf(drawn, steps, machines, bare, operation, horizon);
  const feeds = addResponses(settings, settings.tight ? drawn : fitted(drawn, baseline));
  const materials = addStocks(settings, bare, feeds, total);
  const outlets = drawOutlets(settings, materials, total);
  const indices = drawIndices(settings);
  const scenario: Scenario = {
    format: 'cutpoint-scenario/1',
    title: `Generated plant ${seed}`,
    note: 'Invented figures.',
    units: { mass: settings.massUnit, currency: 'EUR' },
    horizon,
    ...drawDiscount(settings),
    operation,
    materials,
    stores: drawStores(settings, materials),
    feeds,
    crews,
    machines,
    steps,
    outlets,
    indices,
    contracts: drawContracts(settings, { materials, indices, total, left: baseline.left }),
    disposals: drawDisposals(settings, materials, total),
    fixedCosts: drawFixedCosts(settings),
    uncertainty: drawUncertainty(settings, outlets, feeds),
  };
  const { currencyScale } = options;
  return currencyScale === undefined ? scenario : withMoneyScaled(scenario, currencyScale);
}

/** Mass a month that can be had: around what the primary shredder can take, exactly that in a degenerate plant. */
function drawTotal(
  settings: Settings,
  steps: readonly Step[],
  machines: readonly Machine[],
  operation: Scenario['operation'],
  horizon: Scenario['horizon'],
): number {
  const random = seededRandom(settings.seed, 'total');
  const first = machines.find(({ id }) => id === 'shredder')!;
  const rates = steps.filter(({ machine }) => machine === first.id).map(netThroughput);
  const hours = Math.min(...machineHours(first, operation, horizon));
  const reach = random.real(0.5, 1.6, 2);
  return rounded(hours * Math.min(...rates) * (settings.degenerate ? 1 : reach), 0);
}

/** Committed mass cut to what the baseline plan can work off. */
function fitted(feeds: readonly Feed[], { fits }: Baseline): Feed[] {
  return feeds.map((feed) => ({ ...feed, committed: Math.floor((feed.committed as number) * fits) }));
}

function drawDiscount(settings: Settings): Pick<Scenario, 'discountRate'> {
  const random = seededRandom(settings.seed, 'discount');
  const discountRate = random.real(0.02, 0.14, 3);
  return settings.has.discount ? { discountRate } : {};
}
