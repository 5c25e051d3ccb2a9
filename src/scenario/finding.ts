import type { ProblemCode } from '../issue/problem.js';
import type { Path } from './pointer.js';

/** One mistake of shape: where, what, and what to do. */
export interface Finding {
  readonly path: Path;
  readonly kind: 'unknown key' | 'missing' | 'other';
  readonly code: ProblemCode;
  readonly text: string;
  readonly remedy: string;
}

/** What a finding says, wherever it stands. */
export type Found = Omit<Finding, 'path' | 'kind'>;
