import type { Engine, EngineAnswer, EngineName, SolveLimits } from '../../src/solver/port.js';
import { programFrom } from './model-json.js';

/** max x, x ≤ 4: the program that the pretending engines are asked about. */
export const SMALL = programFrom({
  sense: 'maximize',
  columns: { x: { cost: 1 } },
  rows: { limit: { upper: 4, terms: { x: 1 } } },
});

/** An answer to SMALL; right with x = 4 and a dual of 1. */
export function optimum(x: number, dual: number): EngineAnswer {
  return {
    reason: 'optimal',
    primal: Float64Array.of(x),
    dual: { rowDual: Float64Array.of(dual), reducedCost: Float64Array.of(1 - dual) },
  };
}

/** An engine that says the same whatever it is asked, and notes the limits that it was given. */
export function pretending(name: EngineName, answer: EngineAnswer, seen: SolveLimits[] = []): Engine {
  const ignore = () => {};
  return {
    name,
    version: '0',
    open: () => ({
      setCost: ignore,
      setColumnBounds: ignore,
      setRowBounds: ignore,
      setCoefficient: ignore,
      solve: (limits = {}) => {
        seen.push(limits);
        return answer;
      },
      basis: () => undefined,
      startFrom: ignore,
      close: ignore,
    }),
  };
}
