import type { Comparison } from '../../analysis/comparison/compared.js';
import type { FeeAnswer } from '../../analysis/fee/fee-answer.js';
import type { TornadoAnswer } from '../../analysis/tornado/tornado.js';
import { readPlantDocument } from '../../plant/read-plant.js';
import { comparisonReport } from '../../report/finance/comparison-report.js';
import { feeBases } from '../../report/finance/fee-bases.js';
import { feeReport } from '../../report/finance/fee-report.js';
import { plain } from '../../report/finance/plain.js';
import type { QuestionReport } from '../../report/finance/question-report.js';
import { riskReport } from '../../report/finance/risk-report.js';
import type { RiskDocument } from '../../report/finance/risk-schema.js';
import { sweepReport } from '../../report/finance/sweep-report.js';
import type { SweepDocument } from '../../report/finance/sweep-schema.js';
import { tornadoReport } from '../../report/finance/tornado-report.js';
import { namesOf } from '../../report/names.js';
import type { TableColumn } from '../../report/table.js';
import type { Scenario } from '../../scenario/schema/scenario.js';
import type { PageQuestion } from './ask.js';

/** An answer's document in every form for people; undefined where there is no plan to speak of. */
export function whatIfReport(
  { question, scenario, options }: PageQuestion,
  document: unknown,
): QuestionReport | undefined {
  if (!(document as { format?: string }).format) return undefined;
  const reading = readPlantDocument(scenario);
  if (!reading.ok) return undefined;
  const { plant } = reading;
  switch (question) {
    case 'sweep':
      return withChangesOfPlan(
        sweepReport(document as SweepDocument, namesOf(plant).materials),
        document as SweepDocument,
      );
    case 'fee':
      return feeReport(plant, document as FeeAnswer, feeBases(scenario as Scenario, plant.units.mass));
    case 'tornado':
      return tornadoReport(scenario, plant, document as TornadoAnswer);
    case 'risk':
      return withDrawsWithoutPlan(riskReport(plant, document as RiskDocument));
    case 'comparison': {
      const after = readPlantDocument((options.after as { readonly scenario: unknown }).scenario);
      return after.ok ? comparisonReport(plant, after.plant, document as Comparison) : undefined;
    }
    default:
      return undefined;
  }
}

/** A sentence for each place where the plan changes, as a table that can be gone through, in place of notes. */
function withChangesOfPlan(report: QuestionReport, { points, of }: SweepDocument): QuestionReport {
  const [first, ...rest] = report.sections;
  const told = points.filter(({ change, onward }) => change !== '' || onward !== undefined);
  if (first === undefined || told.length === 0) return report;
  const isOnward = told.some(({ onward }) => onward !== undefined);
  const columns: TableColumn[] = [
    { head: of.unit === '' ? 'at' : `at, ${of.unit}`, kind: 'text' },
    { head: 'what changes in the plan there', kind: 'text' },
    ...(isOnward ? [{ head: 'and from there on', kind: 'text' } as const] : []),
  ];
  const rows = told.map(({ at, change, onward }) => [plain(at), change, ...(isOnward ? [onward] : [])]);
  const changes = { title: 'The plan changes at', table: { columns, rows } };
  return { ...report, sections: [changes, { ...first, notes: [] }, ...rest] };
}

/** Draws that have no plan, with the limits that stand in the way, among the tables that are shown. */
function withDrawsWithoutPlan(report: QuestionReport): QuestionReport {
  const found = report.tables.find(({ name }) => name === 'risk-without-plan');
  if (found === undefined) return report;
  const section = { title: 'Draws without a plan, by what stands in the way', table: found.table };
  return { ...report, sections: [...report.sections.slice(0, 1), section, ...report.sections.slice(1)] };
}
