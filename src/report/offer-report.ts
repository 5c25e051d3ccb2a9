import type { Plant } from '../plant/plant.js';
import type { QuestionReport } from './finance/question-report.js';
import { aloneSection, callsSection, termsSection, uncertainSection } from './offer/detail-sections.js';
import { displacedChart, displacedSection, displacedTable, SOURCES_TITLE } from './offer/displaced-chart.js';
import { displacementBridge } from './offer/displacement-bridge.js';
import { bridgeSection, gainSection, monthsSection, movesSection } from './offer/displacement-sections.js';
import { offerHeadline } from './offer/headline.js';
import { quoteChart } from './offer/quote-chart.js';
import { ladderSection, quoteSection } from './offer/quote-sections.js';
import type { JudgedDocument, OfferDocument } from './offer-document.js';
import type { Section } from './section.js';

/** A judged offer in every form. Made from its document; the plant gives the names. */
export function offerReport(plant: Plant, document: OfferDocument): QuestionReport {
  const { units } = document;
  if (document.status !== 'judged') {
    return { document, units, headline: [UNJUDGED[document.status]], sections: [], tables: [], charts: [] };
  }
  const sections = sectionsOf(document, plant);
  const headline = offerHeadline(document, plant);
  return {
    document,
    units,
    headline,
    sections,
    tables: tablesOf(document, sections),
    charts: chartsOf(document),
  };
}

const UNJUDGED = {
  infeasible: 'No plan meets all the limits of this scenario together, with the offer or without it.',
  'no certified answer': 'No engine gave an answer that holds against the figures of the scenario.',
  cancelled: 'Stopped before the offer was judged.',
} as const;

function sectionsOf(document: JudgedDocument, plant: Plant): Section[] {
  const all = [
    gainSection(document),
    callsSection(document),
    aloneSection(document, plant),
    quoteSection(document),
    ladderSection(document, plant),
    ...displacedSection(document),
    bridgeSection(document, plant),
    movesSection(document, plant),
    monthsSection(document, plant),
    termsSection(document),
    uncertainSection(document),
  ];
  return all.filter(({ table }) => table.rows.length > 0);
}

/** The printed tables, the sources of the tonnes at every volume. */
function tablesOf(document: JudgedDocument, sections: readonly Section[]): QuestionReport['tables'] {
  const sources = displacedTable(document);
  return [
    ...sections
      .filter(({ title }) => title !== SOURCES_TITLE)
      .map(({ title, table }) => ({ name: title.toLowerCase().replace(/[^a-z]+/g, '-'), table })),
    ...(sources === undefined ? [] : [{ name: 'sources', table: sources }]),
  ];
}

function chartsOf(document: JudgedDocument): QuestionReport['charts'] {
  const charts = {
    quotes: quoteChart(document),
    sources: displacedChart(document),
    bridge: displacementBridge(document),
  };
  return Object.entries(charts).flatMap(([name, svg]) => (svg === undefined ? [] : [{ name, svg }]));
}
