import { planQuestion } from './plan.js';
import type { Question } from './question.js';

/** The table of questions: one entry makes a route, its documentation and its work in a thread. */
export const QUESTIONS: readonly Question[] = [planQuestion];
