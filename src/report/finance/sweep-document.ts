import type { SweepAnswer, SweepPoint, SweepRange } from '../../analysis/sweep/sweep-answer.js';
import { figuresOf, ownValue, type Parameter } from '../../analysis/variant/parameter.js';
import type { MassById, PlanTonnes } from '../../analysis/variant/plan-tonnes.js';
import type { Plant } from '../../plant/plant.js';
import { toIdPointer } from '../../scenario/pointer.js';
import { parameterWords } from './parameter-words.js';
import type { SweepDocument, SweepMapDocument } from './sweep-schema.js';
import { limitsInWords, movesInWords } from './words.js';

export interface SweptRange {
  readonly parameter: Parameter;
  readonly from: number;
  readonly to: number;
}

/** The document of a sweep. `document` is the scenario's own. */
export function sweepDocument(
  document: unknown,
  plant: Plant,
  { parameter, from, to }: SweptRange,
  answer: SweepAnswer,
): SweepDocument {
  return {
    format: 'cutpoint-sweep/1',
    ...head(plant),
    of: ofParameter(document, plant, parameter),
    from,
    to,
    ...curveOf(answer, plant),
  };
}

/** The document of several sweeps, one for each value of a second number. */
export function sweepMapDocument(
  document: unknown,
  plant: Plant,
  { parameter, from, to }: SweptRange,
  by: Parameter,
  rows: readonly { readonly by: number; readonly answer: SweepAnswer }[],
): SweepMapDocument {
  return {
    format: 'cutpoint-sweep-map/1',
    ...head(plant),
    of: ofParameter(document, plant, parameter),
    by: ofParameter(document, plant, by),
    from,
    to,
    rows: rows.map((row) => ({ by: row.by, ...curveOf(row.answer, plant) })),
  };
}

function head({ title, units }: Plant) {
  return { title, units: { mass: units.mass, currency: units.currency } };
}

function ofParameter(document: unknown, { units }: Plant, parameter: Parameter): SweepDocument['of'] {
  const found = figuresOf(document, parameter);
  const own = found.ok ? ownValue(parameter, found.figures) : undefined;
  const { unit } = parameterWords(document, parameter, units);
  return {
    pointers: parameter.pointers.map((pointer) => toIdPointer(document, pointer) ?? pointer),
    kind: parameter.kind,
    unit,
    ...(own === undefined ? {} : { own }),
  };
}

function curveOf({ ranges, points, error, ...rest }: SweepAnswer, plant: Plant) {
  return {
    ...rest,
    ranges: ranges.map((range) => rangeOf(range, plant)),
    points: points.map((point) => pointOf(point, plant)),
    ...(error === undefined ? {} : { error: { ...error } }),
  };
}

function pointOf(point: SweepPoint, plant: Plant) {
  const { at, value, slopeLeft, slopeRight, kind, tonnesLeft, tonnesRight, change, onward } = point;
  return {
    at,
    value,
    slopeLeft: slopeLeft ?? null,
    slopeRight: slopeRight ?? null,
    kind,
    tonnesLeft: tonnesLeft ?? null,
    tonnesRight: tonnesRight ?? null,
    change: changeInWords(point, plant),
    moves: (change?.moves ?? []).map(({ month, ...move }) => ({
      ...move,
      ...(month === undefined ? {} : { month: plant.months[month].label }),
    })),
    ...(change === undefined ? {} : { manner: change.manner }),
    ...(onward === undefined ? {} : { onward: movesInWords(onward, plant) }),
  };
}

function changeInWords({ change, isBend, tonnesLeft, tonnesRight }: SweepPoint, plant: Plant): string {
  const plan = change === undefined ? [] : [movesInWords(change.moves, plant, change.manner === 'turn')];
  if (isBend !== true) return plan.join('');
  const isSame = tonnesLeft !== undefined && tonnesRight !== undefined && areSame(tonnesLeft, tonnesRight);
  const stays = isSame ? ['the plan stays as it is'] : plan;
  return ['a figure that follows the number meets its floor or ceiling', ...stays].join('; ');
}

function areSame(a: PlanTonnes, b: PlanTonnes): boolean {
  const masses = (tonnes: PlanTonnes) =>
    Object.values<MassById>({ ...tonnes }).flatMap((byId) => Object.values(byId));
  const other = masses(b);
  return masses(a).every((mass, i) => Math.abs(mass - other[i]) <= SAME * (1 + Math.abs(mass)));
}

/** Relative: masses that differ by less are the same. */
const SAME = 1e-6;

function rangeOf(range: SweepRange, plant: Plant): SweepDocument['ranges'][number] {
  const { from, to, status } = range;
  switch (range.status) {
    case 'answered':
      return { from, to, status };
    case 'infeasible':
      return { from, to, status, reason: `No plan meets ${limitsInWords(range.limits, plant)}.` };
    case 'invalid':
      return {
        from,
        to,
        status,
        reason: range.problems.map(({ message }) => message).join(' '),
        problems: range.problems.map((problem) => ({ ...problem })),
      };
    case 'not asked':
      return { from, to, status, reason: 'Stopped before it was asked.' };
    case 'no certified answer':
      return { from, to, status, reason: 'No engine gave an answer that holds.' };
  }
}
