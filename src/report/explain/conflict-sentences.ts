import type {
  ConflictAnswer,
  ConflictMember,
  ObviousConflict,
  Repair,
} from '../../analysis/conflict/conflict.js';
import type { Plant } from '../../plant/plant.js';
import { formatFigure, formatKind, formatMoney } from '../figure.js';
import { type Names, namesOf } from '../names.js';
import { KIND_WORDS, limitAmount, limitWords } from './limit-words.js';

/** Obvious conflicts that are told; what is the matter is clear by then. */
const MOST_OBVIOUS = 4;

/** Why there is no plan and what would have to give, in three to seven plain sentences where that takes so many. */
export function conflictSentences(plant: Plant, answer: ConflictAnswer): string[] {
  const names = namesOf(plant);
  const { conflict = [], obvious, repair } = answer;
  const sentences = [
    ...obviousSentences(obvious, plant, names),
    ...(conflict.length === 0 ? [] : [conflictSentence(conflict, plant, names)]),
    ...(repair === undefined ? [] : repairSentences(repair, plant, names)),
  ];
  return sentences.length > 0
    ? sentences
    : [
        'There is no plan, but no limit or promise stands against the others by more than rounding: loosen by a little what binds.',
      ];
}

/** One sentence a contract or material, of its worst month; the worst first. */
function obviousSentences(obvious: readonly ObviousConflict[], plant: Plant, names: Names): string[] {
  const bySubject = new Map<string, ObviousConflict[]>();
  for (const each of obvious) {
    const subject = JSON.stringify([each.kind, 'contract' in each ? each.contract : each.material]);
    bySubject.set(subject, [...(bySubject.get(subject) ?? []), each]);
  }
  const worst = [...bySubject.values()].map((list) => ({
    worst: list.reduce((most, each) => (missing(each) > missing(most) ? each : most)),
    months: list.length,
  }));
  const told = worst.sort((a, b) => missing(b.worst) - missing(a.worst)).slice(0, MOST_OBVIOUS);
  const left = worst.length - told.length;
  return [
    ...told.map(({ worst: each, months }) => obviousSentence(each, months, plant, names)),
    ...(left === 0 ? [] : [`${left} more contracts and materials stand so.`]),
  ];
}

function missing(conflict: ObviousConflict): number {
  switch (conflict.kind) {
    case 'minimum above capacity':
      return conflict.asked - conflict.atMost;
    case 'committed above machines and room':
      return conflict.committed - conflict.atMost;
    case 'waste without room':
      return conflict.made - conflict.atMost;
  }
}

function obviousSentence(conflict: ObviousConflict, months: number, plant: Plant, names: Names): string {
  const { mass } = plant.units;
  const month = plant.months[conflict.month].label;
  const figure = (amount: number) => `${formatFigure(amount, 1)} ${mass}`;
  const often = months > 1 ? `; so in ${months} of ${plant.months.length} months` : '';
  switch (conflict.kind) {
    case 'minimum above capacity':
      return `${names.contracts[conflict.contract]} asks for ${figure(conflict.asked)} in ${month}; feeds, stock and machines can come to ${figure(conflict.atMost)} at most${often}.`;
    case 'committed above machines and room':
      return `By the end of ${month} ${figure(conflict.committed)} of ${names.materials[conflict.material]} have to be taken; machines, buyers and room can take ${figure(conflict.atMost)} at most${often}.`;
    case 'waste without room':
      return `By the end of ${month} at least ${figure(conflict.made)} of ${names.materials[conflict.material]} are left over; disposals, buyers and room can take ${figure(conflict.atMost)} at most${often}.`;
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

/** One phrase a limit: in its month, or in how many and what is left in the month in which most gives. */
function givesWords(gives: Repair['gives'], plant: Plant, names: Names): string[] {
  const byLimit = new Map<string, Repair['gives'][number][]>();
  for (const each of gives) {
    const name = JSON.stringify({ ...each.limit, month: 0 });
    byLimit.set(name, [...(byLimit.get(name) ?? []), each]);
  }
  return [...byLimit.values()].map((list) => {
    const { limit, unit, amount, to } = list.reduce((most, each) => (each.by > most.by ? each : most));
    const from = `from ${limitAmount(amount, unit, plant.units)} to ${limitAmount(to, unit, plant.units)}`;
    const month = plant.months[limit.month].label;
    return list.length === 1
      ? `${limitWords(limit, names)} in ${month} ${from}`
      : `${limitWords(limit, names)} in ${list.length} months, the most in ${month}, ${from}`;
  });
}

function repairSentences(repair: Repair, plant: Plant, names: Names): string[] {
  const gives = givesWords(repair.gives, plant, names);
  const kinds = [...new Set(repair.gives.map(({ limit }) => limit.kind))];
  const weights = kinds
    .map((kind) => `${formatFigure(repair.weights[kind], 0)} for ${KIND_WORDS[kind]}`)
    .join(', ');
  const cheapest = `The least that has to give, at a weight by unit of ${weights}: ${gives.join('; ')}.`;
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
