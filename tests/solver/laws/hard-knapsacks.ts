import { ProgramBuilder } from '../../../src/program/builder.js';
import type { LinearProgram } from '../../../src/program/linear-program.js';
import { randomFrom } from '../random-program.js';

/** Things, each taken or left, against ten limits at once: of sixty tenths of a second of search for any engine, of a hundred seconds. */
export function hardKnapsacks(things = 60): LinearProgram<number, number> {
  const random = randomFrom(11);
  const builder = new ProgramBuilder<number, number>('maximize');
  const columns = Array.from({ length: things }, (_, j) =>
    builder.column(j, { cost: 10 + Math.floor(random() * 90), upper: 1, integer: true }),
  );
  for (let i = 0; i < 10; i++) {
    const row = builder.row(i, { upper: 1000 });
    for (const column of columns) builder.add(row, column, 5 + Math.floor(random() * 95));
  }
  return builder.build();
}
