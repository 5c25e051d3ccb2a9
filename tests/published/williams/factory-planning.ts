import { ProgramBuilder } from '../../../src/program/builder.js';
import type { LinearProgram } from '../../../src/program/linear-program.js';

/**
 * Williams, Model Building in Mathematical Programming, "Factory planning": seven products on five kinds of
 * machine over six months, with stocks. Data from memory, confirmed by the published optima.
 */
const PROFIT = [10, 6, 8, 4, 11, 9, 3];
const MACHINES = [
  {
    name: 'grinder',
    count: 4,
    hours: [0.5, 0.7, 0, 0, 0.3, 0.2, 0.5],
    down: [1, 0, 0, 0, 1, 0],
    services: 2,
  },
  {
    name: 'vertical drill',
    count: 2,
    hours: [0.1, 0.2, 0, 0.3, 0, 0.6, 0],
    down: [0, 0, 0, 1, 1, 0],
    services: 2,
  },
  {
    name: 'horizontal drill',
    count: 3,
    hours: [0.2, 0, 0.8, 0, 0, 0, 0.6],
    down: [0, 2, 0, 0, 0, 1],
    services: 3,
  },
  {
    name: 'borer',
    count: 1,
    hours: [0.05, 0.03, 0, 0.07, 0.1, 0, 0.08],
    down: [0, 0, 1, 0, 0, 0],
    services: 1,
  },
  { name: 'planer', count: 1, hours: [0, 0, 0.01, 0, 0.05, 0, 0.05], down: [0, 0, 0, 0, 0, 1], services: 1 },
];
const HOURS_A_MONTH = 384;
const MARKET = [
  [500, 1000, 300, 300, 800, 200, 100],
  [600, 500, 200, 0, 400, 300, 150],
  [300, 600, 0, 0, 500, 400, 100],
  [200, 300, 400, 500, 200, 0, 100],
  [0, 100, 500, 100, 1000, 300, 0],
  [500, 500, 100, 300, 1100, 500, 60],
];
const STOCK = { limit: 100, cost: 0.5, last: 50 };

type Builder = ProgramBuilder<string, string>;

/** The first problem: each machine's service in a given month. Linear. */
export function factoryPlanning1(): LinearProgram<string, string> {
  const builder: Builder = new ProgramBuilder('maximize');
  addProducts(builder, (m, t) => {
    const { name, count, down } = MACHINES[m];
    return builder.row(`${name} ${t}`, { upper: HOURS_A_MONTH * (count - down[t]) });
  });
  return builder.build();
}

/** The second: the plan chooses the months of the services; whole numbers of machines are down. */
export function factoryPlanning2(): LinearProgram<string, string> {
  const builder: Builder = new ProgramBuilder('maximize');
  const services = MACHINES.map(({ name, services }) =>
    builder.row(`services ${name}`, { lower: services, upper: services }),
  );
  addProducts(builder, (m, t) => {
    const { name, count, services: most } = MACHINES[m];
    const row = builder.row(`${name} ${t}`, { upper: HOURS_A_MONTH * count });
    const down = builder.column(`down ${name} ${t}`, { upper: most, integer: true });
    builder.add(row, down, HOURS_A_MONTH);
    builder.add(services[m], down, 1);
    return row;
  });
  return builder.build();
}

/** `capacity` gives the row of a machine's hours in a month. */
function addProducts(builder: Builder, capacity: (machine: number, month: number) => number): void {
  const before: (number | undefined)[] = PROFIT.map(() => undefined);
  for (const [t, market] of MARKET.entries()) {
    const rows = MACHINES.map((_, m) => capacity(m, t));
    const last = t === MARKET.length - 1;
    for (const [p, profit] of PROFIT.entries()) {
      const make = builder.column(`make ${p} ${t}`);
      const sell = builder.column(`sell ${p} ${t}`, { cost: profit, upper: market[p] });
      const stock = builder.column(`stock ${p} ${t}`, {
        cost: -STOCK.cost,
        lower: last ? STOCK.last : 0,
        upper: last ? STOCK.last : STOCK.limit,
      });
      const balance = builder.row(`balance ${p} ${t}`, { lower: 0, upper: 0 });
      builder.add(balance, make, 1);
      builder.add(balance, sell, -1);
      builder.add(balance, stock, -1);
      const carried = before[p];
      if (carried !== undefined) builder.add(balance, carried, 1);
      before[p] = stock;
      for (const [m, { hours }] of MACHINES.entries()) builder.add(rows[m], make, hours[p]);
    }
  }
}
