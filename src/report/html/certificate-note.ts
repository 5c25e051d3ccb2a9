import { formatMoney } from '../figure.js';
import { proofLines } from '../headline.js';
import type { DocumentViolation, PlannedDocument } from '../plan-document.js';
import { starterFigureLines } from '../starter-figure-lines.js';
import { html, type Markup } from './markup.js';

/** The proof in one line, with what it rests on behind it. */
export function certificateNote(document: PlannedDocument): Markup {
  const { certificate, engine, units, statement, massBalance, scenarioDigest, starterFigures, names } =
    document;
  const rows: [string, string][] = [
    ['Present value of the plan', formatMoney(certificate.objective, units.currency)],
    ...(certificate.bound === undefined
      ? []
      : [['No plan exceeds', formatMoney(certificate.bound, units.currency)] as [string, string]]),
    ['Money that moves (what gaps are relative to)', formatMoney(statement.scale, units.currency)],
    ['Largest violation that is accepted', relative(certificate.tolerance)],
    ['Worst violation of a limit', violation(certificate.primal)],
    ['Worst violation of a price of a limit', violation(certificate.dual)],
    ['Worst violation of complementary slackness', violation(certificate.complementarity)],
    ['Worst distance from a whole number', violation(certificate.integrality)],
    ['In less out less change in stock', `${relative(Math.abs(massBalance.residual))} ${units.mass}`],
    ['Solved by', `${engine.name} ${engine.version}, ${engine.solves} solves`],
    ...(scenarioDigest === undefined ? [] : [['Scenario', scenarioDigest] as [string, string]]),
  ];
  return html`<section aria-labelledby="proof"><h2 id="proof">Proof</h2>
${proofLines(document).map((line) => html`<p>${line}</p>`)}
<details><summary>What the proof rests on</summary>
<table><caption>Certificate</caption><tbody>${rows.map(([what, value]) => html`<tr><th scope="row">${what}</th><td class="figure">${value}</td></tr>`)}</tbody></table>
${starterFigureLines(starterFigures, names.materials).map((line) => html`<p class="note">${line}</p>`)}
</details></section>`;
}

function violation(found: DocumentViolation | undefined): string {
  if (found === undefined) return 'not proved';
  const { amount, at } = found;
  if (at === undefined || amount === 0) return relative(amount);
  const { kind, ...nouns } = at;
  return `${relative(amount)} (${[kind, ...Object.values(nouns)].join(', ')})`;
}

function relative(amount: number): string {
  return amount === 0 ? '0' : amount.toExponential(1);
}
