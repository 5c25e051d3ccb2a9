import { ladderTable, massBalanceTable, worthTable } from './csv/mass.js';
import { cashTable, statementTable } from './csv/money.js';
import {
  crewsTable,
  energyTable,
  machinesTable,
  outputsTable,
  peaksTable,
  stepsTable,
  wagesTable,
} from './csv/operation.js';
import { contractsTable, deliveriesTable, salesTable } from './csv/sales.js';
import { disposalsTable, receiptsTable, stocksTable, storesTable } from './csv/supply.js';
import { csvText } from './csv.js';
import type { PlannedDocument } from './plan-document.js';
import type { Table } from './table.js';

/** One CSV file. */
export interface CsvFile {
  readonly name: string;
  readonly text: string;
}

/** The tables of a plan, by the name of their file without its ending: all months, nothing rounded. */
export const PLAN_TABLES: Readonly<Record<string, (document: PlannedDocument) => Table>> = {
  statement: statementTable,
  cash: cashTable,
  ladder: ladderTable,
  receipts: receiptsTable,
  steps: stepsTable,
  outputs: outputsTable,
  machines: machinesTable,
  crews: crewsTable,
  wages: wagesTable,
  stocks: stocksTable,
  stores: storesTable,
  sales: salesTable,
  contracts: contractsTable,
  deliveries: deliveriesTable,
  disposals: disposalsTable,
  energy: energyTable,
  peaks: peaksTable,
  worth: worthTable,
  'mass-balance': massBalanceTable,
};

/** A plan as CSV files, one a table. */
export function planCsv(document: PlannedDocument): CsvFile[] {
  return Object.entries(PLAN_TABLES).map(([name, tableOf]) => ({
    name: `${name}.csv`,
    text: csvText(tableOf(document), document.units),
  }));
}
