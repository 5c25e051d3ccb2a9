import { expect, it } from 'vitest';
import type { FeeAnswer } from '../../../src/analysis/fee/fee-answer.js';
import { derivePlant } from '../../../src/plant/derive-plant.js';
import { feeReport } from '../../../src/report/finance/fee-report.js';
import { feeSchema } from '../../../src/report/finance/fee-schema.js';
import { tinyScenario } from '../../planning/tiny-plant.js';

const answer: FeeAnswer = {
  status: 'complete',
  value: 1000,
  bound: 1010,
  gap: 0.005,
  scale: 2000,
  feeds: [
    {
      feed: 'yard',
      fee: 55,
      feeByMass: 55,
      range: { low: 40, high: 90 },
      tonnes: 30,
      income: 1650,
      standing: 'inside',
      worth: [],
      curve: [{ fee: 55, value: 1000, tonnes: 30, income: 1650 }],
    },
  ],
  solves: 7,
};

/** What is said of an answer, once its document has passed the schema. */
function told(own: FeeAnswer): string {
  const { headline, document } = feeReport(derivePlant(tinyScenario()), own, {});
  feeSchema.parse(document);
  return headline.join('\n');
}

it('the best fee is told with what is proved of all others', () => {
  expect(told(answer)).toContain('No fees in the ranges bring more than 1,010.00 EUR: proved.');
});

it('a bound with whole shifts in parts says so', () => {
  expect(told({ ...answer, isBoundInParts: true })).toContain(
    '1,010.00 EUR: proved, with whole shifts and windows taken in parts, which can only bring more.',
  );
});

it('an answer that was stopped before anything was proved tells of no bound', () => {
  const { bound: _, gap: __, ...unproved } = answer;
  const words = told({ ...unproved, status: 'partial' });
  expect(words).toContain('What other fees could bring is not known yet.');
  expect(words).toContain('Stopped or cut short: these are the best fees found so far.');
  expect(words).not.toMatch(/bound|undefined|NaN/);
});
