import { printHeadline } from './headline.js';
import { printMonthByMonth } from './month-by-month.js';
import type {
  InfeasibleDocument,
  PlanDocument,
  PlannedDocument,
  UnansweredDocument,
} from './plan-document.js';
import { printParagraph, printSection, type Section } from './section.js';
import { crewsSection, crewTotalsSection } from './sections/crews.js';
import { ladderSection, massBalanceSection, worthSection } from './sections/mass.js';
import { cashSection, monthStatementSection, statementSection } from './sections/money.js';
import {
  energySection,
  machinesSection,
  outputsSection,
  stepsSection,
  stepWindowsSection,
} from './sections/operation.js';
import {
  contractsSection,
  contractTotalsSection,
  deliveriesSection,
  salesSection,
  saleTotalsSection,
} from './sections/sales.js';
import { feedsSection, stocksSection, storesSection, wasteSection } from './sections/supply.js';
import { machineTotalsSection, stepTotalsSection } from './sections/totals.js';
import { starterFigureLines } from './starter-figure-lines.js';
import { sumOf } from './sum.js';

/** Which months of several are printed in detail; by default none, only their totals and the months side by side. */
export type MonthsInDetail = 'none' | 'all' | { readonly month: string };

/** A plan in print, 100 columns wide. Made from its document alone; only the printing rounds. */
export function printPlan(document: PlanDocument, detail: MonthsInDetail = 'none'): string {
  if (document.status === 'infeasible' || document.status === 'no certified answer') {
    return printNoPlan(document);
  }
  return `${printHeadline(document)}\n${printBody(document, detail)}${printWhy(document)}${printFoot(document)}`;
}

function printNoPlan(document: InfeasibleDocument | UnansweredDocument): string {
  const attempts = 'attempts' in document ? document.attempts : [];
  return [...document.reasons, ...attempts.map(({ engine, outcome }) => `${engine}: ${outcome}`)]
    .map(printParagraph)
    .join('');
}

function printBody(document: PlannedDocument, detail: MonthsInDetail): string {
  if (document.months.length === 1) {
    return printSections(document, [
      ...monthSections(document, 0),
      statementSection(document),
      cashSection(document),
      massBalanceSection(document),
      worthSection(document, 0),
    ]);
  }
  if (detail === 'none') {
    return `${printSections(document, totalSections(document))}${printMonthByMonth(document)}`;
  }
  return document.months
    .map((each, month) =>
      detail === 'all' || detail.month === each.month ? printMonth(document, month) : '',
    )
    .join('');
}

function printMonth(document: PlannedDocument, month: number): string {
  return `--- ${document.months[month].month} ---\n\n${printSections(document, [
    ...monthSections(document, month),
    monthStatementSection(document, month),
    worthSection(document, month),
  ])}`;
}

function monthSections(document: PlannedDocument, at: number): Section[] {
  const { names, units, ladder } = document;
  const month = document.months[at];
  return [
    ladderSection(document, ladder.months[at], ladder.rest[at]),
    feedsSection(names, month.receipts),
    stepsSection(names, month),
    stepWindowsSection(names, month),
    outputsSection(names, month),
    machinesSection(names, month),
    crewsSection(names, month),
    salesSection(names, month),
    contractsSection(names, month),
    deliveriesSection(names, month),
    wasteSection(names, month.disposals),
    stocksSection(names, month),
    storesSection(names, month),
    energySection(names, month, units),
  ];
}

function totalSections(document: PlannedDocument): Section[] {
  const { names, total, ladder } = document;
  return [
    ladderSection(
      document,
      ladder.total,
      sumOf(ladder.rest, (rest) => rest),
    ),
    feedsSection(names, total.receipts),
    stepTotalsSection(names, total.steps),
    machineTotalsSection(names, total.machines),
    crewTotalsSection(names, total.crews),
    saleTotalsSection(names, total.sales),
    contractTotalsSection(names, total.contracts),
    wasteSection(names, total.disposals),
    statementSection(document),
    cashSection(document),
    massBalanceSection(document),
  ];
}

function printSections({ units }: PlannedDocument, sections: readonly Section[]): string {
  return sections.map((section) => printSection(section, units)).join('');
}

function printWhy({ why = [] }: PlannedDocument): string {
  return why.length === 0 ? '' : `WHY\n${why.map(printParagraph).join('')}\n`;
}

function printFoot({
  warnings,
  starterFigures,
  cautions,
  engine,
  certificate,
  names,
}: PlannedDocument): string {
  const proof = `Proof: worst violation of a limit ${printed(certificate.primal.amount)}, tolerance ${printed(certificate.tolerance)}; ${engine.name} ${engine.version}, ${engine.solves} solves.`;
  return [
    ...warnings.map(({ message }) => `Warning: ${message}`),
    ...starterFigureLines(starterFigures, names.materials),
    proof,
    ...cautions,
  ]
    .map(printParagraph)
    .join('');
}

function printed(relative: number): string {
  return relative.toExponential(0);
}
