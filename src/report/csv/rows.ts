import type { PlanMonth } from '../../planning/plan.js';
import type { PlannedDocument } from '../plan-document.js';
import type { TableRow } from '../table.js';

/** Rows of all months, each with its month in front. */
export function rowsByMonth(
  document: PlannedDocument,
  rowsOf: (month: PlanMonth) => readonly TableRow[],
): TableRow[] {
  return document.months.flatMap((month) => rowsOf(month).map((row) => [month.month, ...row]));
}
