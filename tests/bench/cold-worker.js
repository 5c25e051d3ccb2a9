import { programOfDraw } from '../../dist/modules/analysis/risk/factor-changes.js';
import { certify } from '../../dist/modules/program/certificate.js';
import { loadSolver } from '../../dist/modules/solver/choose.js';

/** What the threads with the cold solves run, on the built modules: a thread takes no TypeScript. */
const {
  engines: [engine],
} = await loadSolver('highs');

/** The certified value of each draw of a path, each from a model opened for it. */
export function cold({ model, path }) {
  return path.map((draw) => {
    const program = programOfDraw(model, model.changes, model.factors[draw]);
    const session = engine.open(program);
    try {
      const { primal, dual } = session.solve();
      return certify(program, { primal, rowDual: dual.rowDual }).objective;
    } finally {
      session.close();
    }
  });
}
