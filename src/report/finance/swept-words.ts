import type { ParameterWords } from './parameter-words.js';
import type { SweepDocument } from './sweep-schema.js';

/** The swept number for people. */
export function sweptWords({ of }: Pick<SweepDocument, 'of'>): ParameterWords {
  const name =
    of.pointers.length > 3 ? `${of.pointers[0]} and ${of.pointers.length - 1} more` : of.pointers.join(', ');
  return { name: of.kind === 'factor' ? `factor on ${name}` : name, unit: of.unit };
}
