import type { PlannedDocument } from '../plan-document.js';
import type { Section } from '../section.js';
import { crewsSection, crewTotalsSection } from '../sections/crews.js';
import { massBalanceSection, worthSection } from '../sections/mass.js';
import { cashSection, monthStatementSection, statementSection } from '../sections/money.js';
import { energySection, machinesSection, stepsSection } from '../sections/operation.js';
import {
  contractsSection,
  contractTotalsSection,
  deliveriesSection,
  salesSection,
  saleTotalsSection,
} from '../sections/sales.js';
import { feedsSection, stocksSection, storesSection, wasteSection } from '../sections/supply.js';
import { machineTotalsSection, stepTotalsSection } from '../sections/totals.js';
import { figureTable } from './figure-table.js';
import { html, type Markup } from './markup.js';

interface Group {
  readonly title: string;
  readonly sections: readonly Section[];
}

/** The plan's tables by what people ask for. */
export function planTables(document: PlannedDocument, month: number | undefined): Markup {
  const groups = month === undefined ? totalGroups(document) : monthGroups(document, month);
  return html`${groups.map(({ title, sections }, i) => {
    const tables = sections.map((section) => figureTable(section, document.units));
    if (tables.every((table) => table === undefined)) return undefined;
    return html`<section aria-labelledby="group-${i}"><h2 id="group-${i}">${title}</h2><div class="tables">${tables.map((table) => table !== undefined && html`<div>${table}</div>`)}</div></section>`;
  })}`;
}

function monthGroups(document: PlannedDocument, at: number): Group[] {
  const { names, units } = document;
  const month = document.months[at];
  const isOnly = document.months.length === 1;
  return [
    {
      title: 'Machines and crews',
      sections: [crewsSection(names, month), machinesSection(names, month), stepsSection(names, month)],
    },
    {
      title: 'Promises and sales',
      sections: [contractsSection(names, month), deliveriesSection(names, month), salesSection(names, month)],
    },
    {
      title: 'What comes in, is held, and goes out',
      sections: [
        feedsSection(names, month.receipts),
        stocksSection(names, month),
        storesSection(names, month),
        wasteSection(names, month.disposals),
      ],
    },
    {
      title: 'Money',
      sections: [
        isOnly ? statementSection(document) : monthStatementSection(document, at),
        cashSection(document),
      ],
    },
    {
      title: 'Behind it',
      sections: [
        worthSection(document, at),
        energySection(names, month, units),
        ...(isOnly ? [massBalanceSection(document)] : []),
      ],
    },
  ];
}

function totalGroups(document: PlannedDocument): Group[] {
  const { names, total } = document;
  return [
    {
      title: 'Machines and crews',
      sections: [
        crewTotalsSection(names, total.crews),
        machineTotalsSection(names, total.machines),
        stepTotalsSection(names, total.steps),
      ],
    },
    {
      title: 'Promises and sales',
      sections: [contractTotalsSection(names, total.contracts), saleTotalsSection(names, total.sales)],
    },
    {
      title: 'What comes in and goes out',
      sections: [feedsSection(names, total.receipts), wasteSection(names, total.disposals)],
    },
    { title: 'Money', sections: [statementSection(document), cashSection(document)] },
    { title: 'Behind it', sections: [massBalanceSection(document)] },
  ];
}
