import type { Material, Step } from '../../src/scenario/schema/scenario.js';
import { CATALOG, CONSTITUENTS } from './catalog.js';
import { drawMovement, moved, rounded } from './figures.js';
import { FULL_LADDER, SMALL_LADDER, type StepTemplate } from './ladder.js';
import { type Random, seededRandom } from './random.js';
import type { Settings } from './settings.js';

/** The steps of this plant: the ladder less what is left out, all inputs made or fed. */
export function drawTemplates(settings: Settings, fed: readonly string[]): StepTemplate[] {
  const random = seededRandom(settings.seed, 'ladder');
  const full = settings.size === 'full';
  const ladder = full ? FULL_LADDER : SMALL_LADDER;
  const sources = ladder.filter((step) => CATALOG[step.input]!.form === 'whole' || step.input === 'buffings');
  const kept = ladder.filter((step) => {
    const dropped = random.chance(step.absent ?? 0);
    return sources.includes(step) ? fed.includes(step.input) : !dropped;
  });
  if (full || kept.length <= 5) return kept;
  const optional = random.pick(kept.filter((step) => step.absent !== undefined));
  return kept.filter((step) => step !== optional);
}

/** Every material that is fed or that a step takes or makes, with its invented figures. */
export function drawMaterials(settings: Settings, templates: readonly StepTemplate[]): Material[] {
  const used = new Set(templates.flatMap((step) => [step.input, step.main, ...Object.keys(step.others)]));
  return Object.entries(CATALOG)
    .filter(([id]) => used.has(id))
    .map(([id, entry]): Material => {
      const random = seededRandom(settings.seed, `material ${id}`);
      const heating = entry.heatingValue;
      return {
        id,
        form: entry.form,
        ...(entry.tireMass === undefined ? {} : { tireMass: entry.tireMass }),
        ...(heating === undefined ? {} : { heatingValue: random.real(...heating, 1) }),
        ...(entry.assay === undefined ? {} : { assay: drawAssay(random, entry.assay) }),
      };
    });
}

export function drawSteps(settings: Settings, templates: readonly StepTemplate[]): Step[] {
  return templates.map((template) => {
    const random = seededRandom(settings.seed, `step ${template.id}`);
    const energy = settings.degenerate ? 60 : random.real(...template.energy, 1);
    const wear = settings.degenerate ? 6 : random.real(...template.wear, 1);
    return {
      id: template.id,
      machine: template.machine,
      input: template.input,
      ...drawThroughput(random, settings, template),
      energy,
      wear: moved(wear, drawMovement(random, settings, 0.1), settings),
      yields: drawYields(random, settings, template),
    };
  });
}

/** The constituents but the first varied by a fifth; rubber takes what is left. */
function drawAssay(random: Random, assay: readonly number[]): Record<string, number> {
  const varied = assay.slice(1).map((share) => rounded(share * random.real(0.8, 1.2, 2)));
  const rubber = rounded(1 - varied.reduce((sum, share) => sum + share, 0));
  return Object.fromEntries(
    CONSTITUENTS.map((name, index) => [name, index === 0 ? rubber : varied[index - 1]!]),
  );
}

/** Primary shredders work against a screen in some plants: three passes for each net tonne, or so. */
function drawThroughput(
  random: Random,
  settings: Settings,
  template: StepTemplate,
): Pick<Step, 'throughput' | 'circuit'> {
  const drawn = random.real(...template.throughput, 1);
  const undersize = random.real(0.35, 0.7, 2);
  const screenEfficiency = random.real(0.85, 0.98, 2);
  const throughput = settings.degenerate ? 4 : drawn;
  if (!settings.has.circuit || settings.degenerate || template.machine !== 'shredder') return { throughput };
  const passThroughput = rounded(throughput / (undersize * screenEfficiency), 2);
  return { circuit: { passThroughput, undersize, screenEfficiency } };
}

function drawYields(random: Random, settings: Settings, template: StepTemplate): Step['yields'] {
  const shares = drawShares(random, template);
  if (settings.has.separation && template.id === 'rasp') return drawSeparation(random);
  if (settings.has.sizing && template.id === 'granulate') return drawSizing(random, settings);
  return { shares };
}

function drawShares(random: Random, template: StepTemplate): Record<string, number> {
  const others = Object.entries(template.others).map(
    ([id, range]) => [id, random.real(...range, 3)] as const,
  );
  const main = rounded(1 - others.reduce((sum, [, share]) => sum + share, 0), 3);
  return { [template.main]: main, ...Object.fromEntries(others) };
}

/** Rubber, wire with some rubber on it, and the fluff that is left. */
function drawSeparation(random: Random): Step['yields'] {
  return {
    separation: {
      to: {
        'wire-free': {
          rubber: random.real(0.94, 0.97, 3),
          steel: random.real(0.01, 0.04, 3),
          fiber: random.real(0.1, 0.2, 2),
          dirt: random.real(0.1, 0.3, 2),
        },
        'dirty-wire': { rubber: random.real(0.01, 0.03, 3), steel: random.real(0.95, 0.96, 3) },
      },
      remainder: 'fiber',
    },
  };
}

function drawSizing(random: Random, settings: Settings): Step['yields'] {
  const back = random.chance(0.5);
  const first = { opening: 4, over: 'return', efficiency: random.real(0.85, 0.95, 2) };
  const full = settings.size === 'full';
  const decks = [
    ...(back ? [first] : []),
    { opening: full ? 2 : 1.5, over: 'granulate-coarse', efficiency: random.real(0.85, 0.95, 2) },
    ...(full ? [{ opening: 1, over: 'granulate-medium', efficiency: random.real(0.8, 0.95, 2) }] : []),
  ];
  return {
    sizing: {
      d63: random.real(1.9, 2.6, 2),
      n: random.real(1.1, 1.6, 2),
      decks,
      under: 'granulate-fine',
      losses: { fiber: random.real(0.01, 0.03, 3) },
    },
  };
}
