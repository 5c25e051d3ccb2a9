import type { Problem } from '../../issue/problem.js';
import type { Draft, ListName } from '../../scenario/draft.js';
import { listed, problemAt, shown } from '../../scenario/place.js';
import type { ChainFinding } from '../assay-findings.js';
import { draftChain } from './draft-chain.js';

/** One assay a material, known where a separation needs it. */
export function checkAssays(draft: Draft): Problem[] {
  return draftChain(draft).findings.flatMap((finding) => problemOf(draft, finding) ?? []);
}

function problemOf(draft: Draft, finding: ChainFinding): Problem | undefined {
  switch (finding.kind) {
    case 'circle':
      return problemAt(
        draft.document,
        pointerOf(draft, 'materials', finding.materials[0]!),
        'assay',
        `its assay is derived in a circle, through ${listed(finding.materials.map(quoted), 'and')}`,
        'State the assay of one of them, or give what comes back from a later step as a material of its own',
      );
    case 'differing': {
      const [first, second] = finding.steps;
      return problemAt(
        draft.document,
        pointerOf(draft, 'materials', finding.material),
        'assay',
        `step '${first.step}' makes it with ${shown(first.share)} ${finding.constituent}, step '${second.step}' with ${shown(second.share)}`,
        'Make two materials of it, or state its assay',
      );
    }
    case 'no assay':
      return problemAt(
        draft.document,
        `${pointerOf(draft, 'steps', finding.step)}/yields/separation`,
        'assay',
        `the input '${finding.input}' neither states nor derives an assay`,
        `State the assay of '${finding.input}', or give the step that makes it as a separation`,
      );
    case 'open assay':
      return problemAt(
        draft.document,
        `${pointerOf(draft, 'steps', finding.step)}/yields/separation`,
        'assay',
        `the constituents of the input '${finding.input}' add up to ${shown(finding.sum)}, not 1`,
        `Complete the assay that '${finding.input}' starts from, until its constituents add up to 1`,
      );
    case 'stated differs':
    case 'assumed':
      return undefined;
  }
}

function quoted(id: string): string {
  return `'${id}'`;
}

function pointerOf(draft: Draft, list: ListName, id: string): string {
  const entry = draft.fragments[list].find(({ value }) => 'id' in value && value.id === id);
  return entry?.pointer ?? '';
}
