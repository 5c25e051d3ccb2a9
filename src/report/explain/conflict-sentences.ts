import type {
  ConflictAnswer,
  ConflictMember,
  ObviousConflict,
  Repair,
} from '../../analysis/conflict/conflict.js';
import type { Plant } from '../../plant/plant.js';
import { formatFigure, formatKind, formatMoney } from '../figure.js';
import { type Names, namesOf } from '../names.js';
import { limitAmount, limitWords } from './limit-words.js';

/** Why there is no plan and what would have to give, in plain sentences. */
export function conflictSentences(plant: Plant, answer: ConflictAnswer): string[] {
  const names = namesOf(plant);
  return [
    ...answer.obvious.map((each) => obviousSentence(each, plant, names)),
    ...(answer.conflict === undefined || answer.conflict.length === 0
      ? []
      : [conflictSentence(answer.conflict, plant, names)]),
    ...(answer.repair === undefined ? [] : repairSentences(answer.repair, plant, names)),
  ];
}

function obviousSentence(conflict: ObviousConflict, plant: Plant, names: Names): string {
  const { mass } = plant.units;
  const month = plant.months[conflict.month].label;
  const figure = (amount: number) => `${formatFigure(amount, 1)} ${mass}`;
  switch (conflict.kind) {
    case 'minimum above capacity':
      return `${names.contracts[conflict.contract]} asks for ${figure(conflict.asked)} in ${month}; feeds, stock and machines can come to ${figure(conflict.atMost)} at most.`;
    case 'committed above machines and room':
      return `By the end of ${month} ${figure(conflict.committed)} of ${names.materials[conflict.material]} have to be taken; machines, buyers and room can take ${figure(conflict.atMost)} at most.`;
    case 'waste without room':
      return `By the end of ${month} at least ${figure(conflict.made)} of ${names.materials[conflict.material]} are left over; disposals, buyers and room can take ${figure(conflict.atMost)} at most.`;
  }
}

function conflictSentence(members: readonly ConflictMember[], plant: Plant, names: Names): string {
  const said = members.map(
    ({ limit, unit, amount }) =>
      `${limitWords(limit, names)} (${plant.months[limit.month].label}, ${limitAmount(amount, unit, plant.units)})`,
  );
  if (said.length === 1) return `This cannot be kept, whatever else gives: ${said[0]}.`;
  return `These cannot all hold, and without any one of them they could: ${said.join('; ')}.`;
}

function repairSentences(repair: Repair, plant: Plant, names: Names): string[] {
  const gives = repair.gives.map(
    ({ limit, unit, amount, to }) =>
      `${limitWords(limit, names)} in ${plant.months[limit.month].label} from ${limitAmount(amount, unit, plant.units)} to ${limitAmount(to, unit, plant.units)}`,
  );
  const kinds = [...new Set(repair.gives.map(({ limit }) => limit.kind))];
  const weights = kinds.map((kind) => `${kind} ${formatFigure(repair.weights[kind], 0)}`).join(', ');
  const cheapest = `The least that has to give, at weights of ${weights} by unit: ${gives.join('; ')}.`;
  const { planned } = repair;
  if (planned === undefined) return [cheapest];
  const { margin } = planned.plan.statement;
  const received = planned.plan.months
    .flatMap(({ receipts }) => receipts)
    .reduce((sum, { mass }) => sum + mass, 0);
  return [
    cheapest,
    `Repaired in this way, and only then, there is a plan: a margin of ${formatMoney(margin, plant.units.currency)} on ${formatKind(received, 'mass', plant.units)} ${plant.units.mass} received.`,
  ];
}
