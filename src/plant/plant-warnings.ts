import type { Warning } from '../issue/warning.js';
import type { Scenario, Step } from '../scenario/schema/scenario.js';
import type { ChainFinding } from './assay-findings.js';
import { derivationOf } from './derivation.js';
import { passesThrough } from './derive-steps.js';

/** Mass that goes back for each mass of fresh input, above which a circuit is a worry: common practice, no source. */
export const PRACTICAL_CIRCULATING_LOAD = 4;

/** What should be known beside any answer on a scenario that has passed its checks. */
export function plantWarnings(scenario: Scenario): Warning[] {
  return [
    ...derivationOf(scenario).chain.findings.flatMap((finding) => assayWarning(scenario, finding) ?? []),
    ...scenario.steps.flatMap(loadWarning),
    ...onlyOffered(scenario),
  ];
}

/** Where all ways out of a material are offers, nothing of it can be made before one is signed. */
function onlyOffered({
  materials,
  outlets = [],
  contracts = [],
  offers = [],
  disposals = [],
  steps,
}: Scenario) {
  const leaves = new Set([
    ...outlets.map(({ material }) => material),
    ...[...contracts, ...disposals].flatMap((each) => each.materials),
    ...steps.map(({ input }) => input),
  ]);
  const offered = new Set(offers.flatMap((offer) => offer.materials));
  return materials.flatMap(({ id, stock }, position): Warning[] =>
    leaves.has(id) || stock !== undefined || !offered.has(id)
      ? []
      : [
          {
            pointer: `/materials/${position}`,
            code: 'only offered',
            message: `Only offers take '${id}': until one is signed, no step that makes it can run.`,
          },
        ],
  );
}

function assayWarning(scenario: Scenario, finding: ChainFinding): Warning | undefined {
  if (finding.kind === 'stated differs') {
    const { material, constituent, stated, made } = finding;
    const difference = Math.abs(stated - made.share);
    return {
      pointer: `${pointerOf(scenario, material)}/assay`,
      code: 'assay',
      message:
        `Material '${material}' states ${share(stated)} ${constituent}, but step '${made.step}' makes it with ` +
        `${share(made.share)}. The plan goes by what is stated; the difference is ${share(difference)} of its ` +
        `mass in ${constituent} that ${stated < made.share ? 'the plan does not account for' : 'comes from nowhere'}.`,
    };
  }
  if (finding.kind !== 'assumed' || !isUsed(scenario, finding.material)) return undefined;
  const { material, step, by, from } = finding;
  return {
    pointer: pointerOf(scenario, material),
    code: 'assay',
    message:
      `Step '${step}' makes '${material}' ${by === 'loss' ? 'as a loss' : 'by stated shares'}, which says ` +
      `nothing about its assay; it is taken to be that with which step '${from}' makes it.`,
  };
}

/** Whether a separation or a limit of quality goes by the assay of the material. */
function isUsed({ steps, contracts = [], offers = [] }: Scenario, material: string): boolean {
  return (
    steps.some(({ input, yields }) => input === material && 'separation' in yields) ||
    [...contracts, ...offers].some(
      ({ materials, quality = [] }) => quality.length > 0 && materials.includes(material),
    )
  );
}

function loadWarning(step: Step, position: number): Warning[] {
  const load = passesThrough(step) - 1;
  if (load <= PRACTICAL_CIRCULATING_LOAD) return [];
  return [
    {
      pointer: `/steps/${position}${step.circuit === undefined ? '/yields/sizing' : '/circuit'}`,
      code: 'circuit',
      message:
        `Step '${step.id}' sends back ${Number(load.toPrecision(3))} times its fresh input; more than ` +
        `${PRACTICAL_CIRCULATING_LOAD} times is seldom practical (common practice, no source). ` +
        'Check the share under the opening and the efficiency of the screen.',
    },
  ];
}

function pointerOf(scenario: Scenario, material: string): string {
  return `/materials/${scenario.materials.findIndex(({ id }) => id === material)}`;
}

function share(value: number): string {
  return `${Number((value * 100).toPrecision(4))} %`;
}
