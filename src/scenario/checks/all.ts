import type { DraftCheck } from '../draft.js';
import { checkContracts } from './contracts.js';
import { checkDates } from './dates.js';
import { checkDeadEnds } from './dead-ends.js';
import { checkFeeds } from './feeds.js';
import { checkIds } from './ids.js';
import { checkMagnitudes } from './magnitudes.js';
import { checkOutlets } from './outlets.js';
import { checkReferences } from './references.js';
import { checkSeries } from './series.js';
import { checkSteps } from './steps.js';
import { checkStocks } from './stocks.js';
import { checkUncertainty } from './uncertainty.js';
import { checkUnits } from './units.js';
import { checkWindows } from './windows.js';

/** What the parts of a scenario must be to each other, as far as it shows without deriving the plant. */
export const scenarioChecks: readonly DraftCheck[] = [
  checkMagnitudes,
  checkIds,
  checkReferences,
  checkSeries,
  checkUnits,
  checkDates,
  checkWindows,
  checkStocks,
  checkFeeds,
  checkSteps,
  checkOutlets,
  checkContracts,
  checkDeadEnds,
  checkUncertainty,
];
