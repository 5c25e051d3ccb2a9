import type { Plant } from '../plant/plant.js';
import { ProgramBuilder } from '../program/builder.js';
import type { LinearProgram } from '../program/linear-program.js';
import { type Columns, declareColumns, type FormulationOptions } from './columns.js';
import type { ColumnKey, RowKey } from './keys.js';
import { addObjective } from './objective.js';
import { addBalances } from './rows/balance.js';
import { addContracts } from './rows/contracts.js';
import { addCrews } from './rows/crews.js';
import { addDemand } from './rows/demand.js';
import { addMachines } from './rows/machines.js';
import { addDisposals, addStores } from './rows/room.js';

export type PlanProgram = LinearProgram<RowKey, ColumnKey>;

export interface Formulation {
  readonly plant: Plant;
  readonly program: PlanProgram;
  readonly columns: Columns;
}

/** The linear program of a plant: a table of contents of what is decided and what limits it. */
export function formulate(plant: Plant, options: FormulationOptions = {}): Formulation {
  const builder = new ProgramBuilder<RowKey, ColumnKey>('maximize');
  const columns = declareColumns(plant, builder, options);
  addBalances(plant, columns, builder);
  addMachines(plant, columns, builder);
  addCrews(plant, columns, builder);
  addDemand(plant, columns, builder);
  addContracts(plant, columns, builder);
  addStores(plant, columns, builder);
  addDisposals(plant, columns, builder);
  addObjective(plant, columns, builder);
  return { plant, program: builder.build(), columns };
}
