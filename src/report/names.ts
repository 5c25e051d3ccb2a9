import type { Plant } from '../plant/plant.js';

/** Names for people, by noun and id; the id where the scenario gives none. */
export interface Names {
  readonly windows: NameById;
  readonly materials: NameById;
  readonly stores: NameById;
  readonly feeds: NameById;
  readonly crews: NameById;
  readonly machines: NameById;
  readonly steps: NameById;
  readonly outlets: NameById;
  readonly contracts: NameById;
  readonly disposals: NameById;
}

export type NameById = Readonly<Record<string, string>>;

/** The names of all that a plan speaks of. */
export function namesOf(plant: Plant): Names {
  return {
    windows: byId(plant.windows),
    materials: byId(plant.materials),
    stores: byId(plant.stores),
    feeds: byId(plant.feeds),
    crews: byId(plant.crews),
    machines: byId(plant.machines),
    steps: byId(plant.steps),
    outlets: byId(plant.outlets),
    contracts: byId(plant.contracts),
    disposals: byId(plant.disposals),
  };
}

function byId(list: readonly { readonly id: string; readonly name: string }[]): NameById {
  return Object.fromEntries(list.map(({ id, name }) => [id, name]));
}
