import type { DraftCheck } from '../scenario/draft.js';
import { checkAssays } from './checks/assays.js';
import { checkHours } from './checks/hours.js';
import { checkLoops } from './checks/loops.js';
import { checkQualities } from './checks/qualities.js';
import { checkResponses } from './checks/responses.js';
import { checkSeparations } from './checks/separations.js';
import { checkShortfalls } from './checks/shortfalls.js';
import { checkSizings } from './checks/sizings.js';
import { checkStarterReferences } from './checks/starter-references.js';

/** What the plant needs of a scenario beyond its references, ranges and balances. */
export const PLANT_CHECKS: readonly DraftCheck[] = [
  checkStarterReferences,
  checkHours,
  checkResponses,
  checkSeparations,
  checkSizings,
  checkAssays,
  checkQualities,
  checkLoops,
  checkShortfalls,
];
