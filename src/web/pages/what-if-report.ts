import type { Bridge } from '../../analysis/comparison/bridge.js';
import type { FeeAnswer } from '../../analysis/fee/fee.js';
import type { RiskAnswer } from '../../analysis/risk/risk.js';
import type { TornadoAnswer } from '../../analysis/tornado/tornado.js';
import { readPlantDocument } from '../../plant/read-plant.js';
import { comparisonReport } from '../../report/finance/comparison-report.js';
import { feeReport } from '../../report/finance/fee-report.js';
import type { QuestionReport } from '../../report/finance/question-report.js';
import { riskReport } from '../../report/finance/risk-report.js';
import { sweepReport } from '../../report/finance/sweep-report.js';
import type { SweepDocument } from '../../report/finance/sweep-schema.js';
import { tornadoReport } from '../../report/finance/tornado-report.js';
import type { PageQuestion } from './ask.js';

/** An answer's document in every form for people; undefined where there is no plan to speak of. */
export function whatIfReport(
  { question, scenario, options }: PageQuestion,
  document: unknown,
): QuestionReport | undefined {
  if (!(document as { format?: string }).format) return undefined;
  if (question === 'sweep') return sweepReport(document as SweepDocument);
  const reading = readPlantDocument(scenario);
  if (!reading.ok) return undefined;
  const { plant } = reading;
  switch (question) {
    case 'fee':
      return feeReport(plant, document as FeeAnswer, feeBases(scenario));
    case 'tornado':
      return tornadoReport(scenario, plant, document as TornadoAnswer);
    case 'risk':
      return riskReport(plant, riskAnswer(document));
    case 'comparison': {
      const after = readPlantDocument((options.after as { readonly scenario: unknown }).scenario);
      return after.ok ? comparisonReport(plant, after.plant, document as Bridge) : undefined;
    }
    default:
      return undefined;
  }
}

/** The answer that a risk document holds; its limits are words already and are said by the document alone. */
function riskAnswer(document: unknown): RiskAnswer {
  const answer = document as Omit<RiskAnswer, 'values'> & { readonly values: readonly (number | null)[] };
  return {
    ...answer,
    values: answer.values.map((value) => value ?? undefined),
    withoutPlan: { ...answer.withoutPlan, limits: [] },
  } as RiskAnswer;
}

/** What each feed's fee is written in, such as 'tire'. */
function feeBases(scenario: unknown): Record<string, string> {
  const { feeds } = scenario as { readonly feeds: readonly { id: string; tippingFee: unknown }[] };
  return Object.fromEntries(
    feeds.flatMap(({ id, tippingFee }) => {
      const per = (tippingFee as { per?: string } | undefined)?.per;
      return per === undefined ? [] : [[id, per]];
    }),
  );
}
