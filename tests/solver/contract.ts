import { beforeAll, describe, expect, it } from 'vitest';
import type { Engine } from '../../src/solver/port.js';
import { interruptionLaws } from './laws/interruptions.js';
import type { Law } from './laws/law.js';
import { optimumLaws } from './laws/optima.js';
import { sessionLaws } from './laws/sessions.js';
import { shapeLaws } from './laws/shapes.js';
import { troubleLaws } from './laws/troubles.js';
import { wholeNumberLaws } from './laws/whole-numbers.js';

/** Laws that an engine does not keep: why not, and what it does instead, which is tested in their place. */
export type Departures = Readonly<Record<string, { readonly reason: string; readonly instead: Law }>>;

const LAWS: Readonly<Record<string, Law>> = {
  ...optimumLaws,
  ...shapeLaws,
  ...wholeNumberLaws,
  ...troubleLaws,
  ...interruptionLaws,
  ...sessionLaws,
};

/** What every engine behind the port must do. */
export function describeContract(
  name: string,
  load: () => Promise<Engine>,
  departures: Departures = {},
): void {
  describe(`the solver port, kept by ${name}`, () => {
    let engine: Engine;
    beforeAll(async () => {
      engine = await load();
    });
    for (const [law, check] of Object.entries(LAWS)) {
      const departure = departures[law];
      if (departure === undefined) it(law, () => check(engine));
      else it(`${law}: not so, ${departure.reason}`, () => departure.instead(engine));
    }
    it('is departed from only in laws that exist', () => {
      expect(Object.keys(departures).filter((law) => !(law in LAWS))).toEqual([]);
    });
  });
}
