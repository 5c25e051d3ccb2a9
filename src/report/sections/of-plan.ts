import type { PlannedDocument } from '../plan-document.js';
import type { Section } from '../section.js';
import { sumOf } from '../sum.js';
import { crewsSection, crewTotalsSection } from './crews.js';
import { ladderSection, massBalanceSection, worthSection } from './mass.js';
import { cashSection, monthStatementSection, statementSection } from './money.js';
import { energySection, machinesSection, stepsSection } from './operation.js';
import {
  contractsSection,
  contractTotalsSection,
  deliveriesSection,
  salesSection,
  saleTotalsSection,
} from './sales.js';
import { feedsSection, stocksSection, storesSection, wasteSection } from './supply.js';
import { machineTotalsSection, stepTotalsSection } from './totals.js';

/** The sections of one month that are worth a table of their own outside of print. */
export function monthSections(document: PlannedDocument, at: number): Section[] {
  const { names, units, ladder } = document;
  const month = document.months[at];
  const isOnly = document.months.length === 1;
  return [
    isOnly ? statementSection(document) : monthStatementSection(document, at),
    ladderSection(document, ladder.months[at], ladder.rest[at]),
    feedsSection(names, month.receipts),
    salesSection(names, month),
    contractsSection(names, month),
    deliveriesSection(names, month),
    stepsSection(names, month),
    machinesSection(names, month),
    crewsSection(names, month),
    stocksSection(names, month),
    storesSection(names, month),
    wasteSection(names, month.disposals),
    energySection(names, month, units),
    cashSection(document),
    ...(isOnly ? [massBalanceSection(document)] : []),
    worthSection(document, at),
  ];
}

/** The same over all months. */
export function totalSections(document: PlannedDocument): Section[] {
  const { names, total, ladder } = document;
  return [
    statementSection(document),
    ladderSection(
      document,
      ladder.total,
      sumOf(ladder.rest, (rest) => rest),
    ),
    feedsSection(names, total.receipts),
    saleTotalsSection(names, total.sales),
    contractTotalsSection(names, total.contracts),
    stepTotalsSection(names, total.steps),
    machineTotalsSection(names, total.machines),
    crewTotalsSection(names, total.crews),
    wasteSection(names, total.disposals),
    cashSection(document),
    massBalanceSection(document),
  ];
}
