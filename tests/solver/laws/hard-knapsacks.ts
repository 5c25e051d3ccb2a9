import { ProgramBuilder } from '../../../src/program/builder.js';
import type { LinearProgram } from '../../../src/program/linear-program.js';
import { randomFrom } from '../random-program.js';

/** Sixty things, each taken or left, against ten limits at once: seconds of search for any engine. */
export function hardKnapsacks(): LinearProgram<number, number> {
  const random = randomFrom(11);
  const builder = new ProgramBuilder<number, number>('maximize');
  const columns = Array.from({ length: 60 }, (_, j) =>
    builder.column(j, { cost: 10 + Math.floor(random() * 90), upper: 1, integer: true }),
  );
  for (let i = 0; i < 10; i++) {
    const row = builder.row(i, { upper: 1000 });
    for (const column of columns) builder.add(row, column, 5 + Math.floor(random() * 95));
  }
  return builder.build();
}
