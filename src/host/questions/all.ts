import { comparisonQuestion } from './comparison.js';
import { explainQuestion } from './explain.js';
import { feeQuestion } from './fee.js';
import { offerQuestion } from './offer.js';
import { planQuestion } from './plan.js';
import type { Question } from './question.js';
import { riskQuestion } from './risk.js';
import { sweepQuestion } from './sweep.js';
import { tornadoQuestion } from './tornado.js';

/** The table of questions: one entry makes a route, its documentation and its work in a thread. */
export const QUESTIONS: readonly Question[] = [
  planQuestion,
  explainQuestion,
  offerQuestion,
  sweepQuestion,
  feeQuestion,
  tornadoQuestion,
  riskQuestion,
  comparisonQuestion,
];
