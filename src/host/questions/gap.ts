import * as z from 'zod';

export const gapSchema = z
  .number()
  .gt(0)
  .lt(1)
  .describe('With whole shifts: stop each solve at this gap, a share of the money that moves.');
