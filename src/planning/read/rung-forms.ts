import type { Form } from '../../plant/plant.js';

/** The forms at which a tonne of tire may stop; what else leaves is a by-product of the way. */
export const RUNG_FORMS: ReadonlySet<Form> = new Set([
  'whole',
  'shred',
  'chip',
  'wire-free',
  'granulate',
  'powder',
]);
