import { STARTER_FIGURES, type StarterField, type StarterFigure } from '../quantity/starter-figures.js';
import type { Material } from './schema/scenario.js';

/** Shares by mass, by constituent or measure. */
type Composition = Readonly<Record<string, number>>;

/** A figure of a material that was taken from the table of published figures. */
export interface StarterUse {
  readonly material: string;
  readonly field: StarterField;
  readonly id: string;
  readonly source: string;
  readonly status: StarterFigure<unknown>['status'];
}

/** What a material states of itself, references to the table of published figures resolved. */
export interface MaterialFigures {
  /** kg */
  readonly tireMass?: number;
  /** MJ/kg, lower */
  readonly heatingValue?: number;
  readonly assay?: Composition;
}

/** @throws RangeError for a reference that leads nowhere */
export function materialFigures(material: Partial<Material>): MaterialFigures {
  const tireMass = resolved('tireMass', material.tireMass);
  const heatingValue = resolved('heatingValue', material.heatingValue);
  const assay = resolved('assay', material.assay);
  return {
    ...(tireMass === undefined ? {} : { tireMass }),
    ...(heatingValue === undefined ? {} : { heatingValue }),
    ...(assay === undefined ? {} : { assay }),
  };
}

/** The published figures that a material refers to. */
export function starterUses(material: Material): StarterUse[] {
  return starterReferences(material).flatMap(({ field, id }) => {
    const figure = STARTER_FIGURES[field].find((candidate) => candidate.id === id);
    if (figure === undefined) return [];
    return [{ material: material.id, field, id, source: figure.source, status: figure.status }];
  });
}

/** The references of a material, whether or not they lead anywhere. */
export function starterReferences(material: Partial<Material>): { field: StarterField; id: string }[] {
  const fields = Object.keys(STARTER_FIGURES) as StarterField[];
  return fields.flatMap((field) => {
    const id = referenceOf(material[field]);
    return id === undefined ? [] : [{ field, id }];
  });
}

/** Whether every reference of the material leads to a published figure. */
export function isResolvable(material: Partial<Material>): boolean {
  return starterReferences(material).every(({ field, id }) =>
    STARTER_FIGURES[field].some((figure) => figure.id === id),
  );
}

function resolved(field: 'assay', stated: Material['assay']): Composition | undefined;
function resolved(field: 'tireMass' | 'heatingValue', stated: Material['tireMass']): number | undefined;
function resolved(
  field: StarterField,
  stated: Material['assay'] | Material['tireMass'],
): Composition | number | undefined {
  const id = referenceOf(stated);
  if (id === undefined) return stated as Composition | number | undefined;
  const figure = STARTER_FIGURES[field].find((candidate) => candidate.id === id);
  if (figure === undefined) throw new RangeError(`There is no published figure ${id} for ${field}.`);
  return figure.value;
}

function referenceOf(stated: unknown): string | undefined {
  if (typeof stated !== 'object' || stated === null || !('from' in stated)) return undefined;
  return typeof stated.from === 'string' ? stated.from : undefined;
}
