import type { Problem } from '../../issue/problem.js';
import { type Formulation, formulate } from '../../planning/formulate.js';
import { goOn } from '../unfinished.js';
import { figuresOf, type Parameter, withParameter } from './parameter.js';
import { readVariant } from './read-variant.js';

/** The program of a scenario with a parameter at a value, or why there is none. */
export type Member =
  | { readonly ok: true; readonly formulation: Formulation }
  | { readonly ok: false; readonly problems: readonly Problem[] };

export type ProgramFamily = (at: number) => Member;

export type FamilyFound =
  | { readonly ok: true; readonly family: ProgramFamily; readonly own: readonly number[] }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/**
 * The programs of a scenario by the value of a parameter; each is built once. `own`: the scenario's own numbers.
 * A program that has still to be built is not where `cancelled` says so.
 *
 * @throws Unfinished by the family
 */
export function familyOf(document: unknown, parameter: Parameter, cancelled?: () => boolean): FamilyFound {
  const found = figuresOf(document, parameter);
  if (!found.ok) return found;
  const built = new Map<number, Member>();
  const family = (at: number): Member => {
    const known = built.get(at);
    if (known !== undefined) return known;
    goOn(cancelled);
    const member = build(withParameter(document, parameter, found.figures, at));
    built.set(at, member);
    return member;
  };
  return { ok: true, family, own: found.figures.map(({ value }) => value) };
}

function build(document: unknown): Member {
  const variant = readVariant(document);
  return variant.ok ? { ok: true, formulation: formulate(variant.plant) } : variant;
}
