import type { DraftCheck } from '../draft.js';
export const scenarioChecks: readonly DraftCheck[] = [];
