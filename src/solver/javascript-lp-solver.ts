import { ColdSession } from './cold-session.js';
import type { LpPackage } from './javascript-lp-solver/package.js';
import { solveProgram } from './javascript-lp-solver/solve.js';
import type { Engine } from './port.js';

/** As pinned in package.json; the package does not say it at run time. */
const VERSION = '1.0.3';

/**
 * javascript-lp-solver: a dense tableau in JavaScript, for small programs. A session solves from scratch
 * each time and keeps no basis.
 */
export async function loadJavascriptLpSolver(): Promise<Engine> {
  const imported = await import('javascript-lp-solver');
  // The package's declarations name neither the default export of the module nor the classes used here.
  const lpPackage = imported.default as unknown as LpPackage;
  return {
    name: 'javascript-lp-solver',
    version: VERSION,
    open: (program) =>
      new ColdSession(program, (current, limits) => solveProgram(lpPackage, current, limits)),
  };
}
