import type { Problem } from '../../issue/problem.js';
import { readSieve } from '../../quantity/sieve.js';
import type { Draft } from '../../scenario/draft.js';
import { listed, problemAt, shown } from '../../scenario/place.js';
import type { Step } from '../../scenario/schema/scenario.js';
import { passing } from '../sizing.js';
import { RETURN } from '../step-outputs.js';

type Sizing = Extract<Step['yields'], { readonly sizing: unknown }>['sizing'];

/** Sizings: sieves that exist, decks from coarse to fine, a return on the first only, losses below 1. */
export function checkSizings(draft: Draft): Problem[] {
  return draft.steps.flatMap(({ value, pointer }) => {
    if (!('sizing' in value.yields)) return [];
    const { sizing } = value.yields;
    const place = `${pointer}/yields/sizing`;
    return [
      ...sieveProblems(draft, place, sizing),
      ...orderProblems(draft, place, sizing),
      ...returnProblems(draft, place, sizing),
      ...endlessReturn(draft, place, sizing),
      ...lossProblems(draft, place, sizing),
      ...circuitProblems(draft, pointer, value, sizing),
    ];
  });
}

function sieveProblems({ document }: Draft, place: string, { decks }: Sizing): Problem[] {
  return decks.flatMap(({ opening }, i) => {
    const reading = readSieve(opening);
    if (reading.kind === 'opening') return [];
    return [
      problemAt(
        document,
        `${place}/decks/${i}/opening`,
        'unknown reference',
        `there is no sieve '${opening}' in ISO 3310-1 or ASTM E11`,
        `Name one of its sieves, such as ${listed(
          reading.nearest.map((name) => `"${name}"`),
          'or',
        )}, or give the opening as a number in mm`,
      ),
    ];
  });
}

function orderProblems({ document }: Draft, place: string, { decks }: Sizing): Problem[] {
  const openings = decks.map(({ opening }) => {
    const reading = readSieve(opening);
    return reading.kind === 'opening' ? reading.opening : undefined;
  });
  return openings.flatMap((opening, i) => {
    const above = openings[i - 1];
    if (opening === undefined || above === undefined || opening < above) return [];
    return [
      problemAt(
        document,
        `${place}/decks/${i}/opening`,
        'yields',
        `the opening of ${shown(opening)} mm is not below the ${shown(above)} mm of the deck above it`,
        'List the decks from the coarsest to the finest',
      ),
    ];
  });
}

function returnProblems({ document }: Draft, place: string, { decks, under }: Sizing): Problem[] {
  const later = decks.flatMap(({ over }, i) =>
    i > 0 && over === RETURN ? [`${place}/decks/${i}/over`] : [],
  );
  return [...later, ...(under === RETURN ? [`${place}/under`] : [])].map((pointer) =>
    problemAt(
      document,
      pointer,
      'yields',
      'only the over of the first deck can return to the machine',
      'Name a material; what goes back from here is a material with a step of its own',
    ),
  );
}

/** The smallest share that may pass the first deck where its over returns: a billion passes for a tonne. */
const LEAST_PASSING = 1e-9;

function endlessReturn({ document }: Draft, place: string, sizing: Sizing): Problem[] {
  const [first] = sizing.decks;
  const reading = readSieve(first?.opening ?? '');
  if (first?.over !== RETURN || reading.kind !== 'opening') return [];
  const share = (first.efficiency ?? 1) * passing(sizing, reading.opening);
  if (share >= LEAST_PASSING) return [];
  return [
    problemAt(
      document,
      `${place}/d63`,
      'yields',
      `next to nothing is fine enough for the first deck of ${shown(reading.opening)} mm: all of it returns without end`,
      'Lower `d63` (mm), or widen the opening of the first deck',
    ),
  ];
}

function lossProblems({ document }: Draft, place: string, { losses = {} }: Sizing): Problem[] {
  const total = Object.values(losses).reduce((sum, share) => sum + share, 0);
  if (total < 1) return [];
  return [
    problemAt(
      document,
      `${place}/losses`,
      'yields',
      `the losses add up to ${shown(total)}: nothing is left for the decks`,
      'Lower the losses until they add up to less than 1',
    ),
  ];
}

function circuitProblems({ document }: Draft, pointer: string, step: Step, { decks }: Sizing): Problem[] {
  if (step.circuit === undefined || decks[0]?.over !== RETURN) return [];
  return [
    problemAt(
      document,
      `${pointer}/circuit`,
      'circuit',
      'the step returns the oversize twice: by its circuit and by the first deck of its sizing',
      'Give `throughput` by the pass in place of `circuit`, or name a material for the over of the first deck',
    ),
  ];
}
