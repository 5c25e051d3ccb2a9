import { movesBetween } from '../variant/plan-quantities.js';
import type { BestPlan } from './best-plan.js';
import type { SamplingLimits } from './proved-samples.js';
import type { SweepPoint } from './sweep-answer.js';

export interface MeasuredSamples {
  readonly points: readonly SweepPoint[];
  readonly samples: readonly BestPlan[];
  /** Currency: the largest distance of a midpoint from the line that was drawn before it was asked. */
  readonly error: number;
  /** Stretches without a feasible plan, to within a millionth of the range. */
  readonly infeasible: readonly { readonly from: number; readonly to: number }[];
}

/** Most stretches at the start. */
const FIRST_STRETCHES = 16;

/**
 * A piece of no known shape: equal stretches at first, then the one whose midpoint lay farthest from the line
 * across it is halved again, until what is measured is small enough or enough points are asked.
 *
 * @throws Unfinished
 */
export function measuredSamples(
  valueAt: (at: number) => BestPlan | undefined,
  from: number,
  to: number,
  limits: SamplingLimits,
): MeasuredSamples {
  const ask = cached(valueAt);
  // Each stretch is halved once, to measure it.
  const first = Math.max(1, Math.min(FIRST_STRETCHES, Math.floor((limits.most - 1) / 2)));
  const stretches = stretchesOf(from, to, first);
  for (const at of stretches) ask(at);
  const feasible = feasibleStretches(ask, stretches, (to - from) * 1e-6);
  const samples: BestPlan[][] = [];
  let error = 0;
  for (const part of feasible) {
    const share = (part.ends[1] - part.ends[0]) / (to - from || 1);
    const refined = refine(ask, part.places, limits, Math.floor(limits.most * share) - 1);
    samples.push(refined.samples);
    error = Math.max(error, refined.error);
  }
  const infeasible = gaps(
    feasible.map(({ ends }) => ends),
    from,
    to,
  );
  return { samples: samples.flat(), error, infeasible, points: samples.flatMap(pointsOf) };
}

type Ask = (at: number) => BestPlan | undefined;

interface Part {
  readonly ends: readonly [number, number];
  readonly places: readonly number[];
}

function cached(valueAt: Ask): Ask {
  const known = new Map<number, BestPlan | undefined>();
  return (at) => {
    if (!known.has(at)) known.set(at, valueAt(at));
    return known.get(at);
  };
}

function stretchesOf(from: number, to: number, count: number): number[] {
  if (from === to) return [from];
  return Array.from({ length: count + 1 }, (_, i) => (i === count ? to : from + (i * (to - from)) / count));
}

/** Runs of places with a plan, each pushed out to the edge of what is feasible. */
function feasibleStretches(ask: Ask, places: readonly number[], near: number): Part[] {
  const parts: Part[] = [];
  let run: number[] = [];
  places.forEach((at, i) => {
    if (ask(at) === undefined) {
      if (run.length > 0) {
        run.push(edge(ask, run[run.length - 1], at, near));
        parts.push(partOf(run));
      }
      run = [];
      return;
    }
    if (run.length === 0 && i > 0) run.push(edge(ask, at, places[i - 1], near));
    run.push(at);
  });
  if (run.length > 0) parts.push(partOf(run));
  return parts;
}

function partOf(run: readonly number[]): Part {
  const places = [...new Set(run)];
  return { ends: [places[0], places[places.length - 1]], places };
}

/** The last place with a plan on the way to one without. */
function edge(ask: Ask, feasible: number, infeasible: number, near: number): number {
  let [good, bad] = [feasible, infeasible];
  while (Math.abs(bad - good) > near) {
    const middle = (good + bad) / 2;
    if (ask(middle) === undefined) bad = middle;
    else good = middle;
  }
  return good;
}

interface Stretch {
  readonly a: BestPlan;
  readonly b: BestPlan;
  /** Measured at the midpoint of the stretch that this one was halved from; infinite before any was asked. */
  readonly deviation: number;
}

/** Halves stretches until the error is small enough or there are `most`; each that was there is halved once. */
function refine(ask: Ask, places: readonly number[], limits: SamplingLimits, most: number) {
  const first = places.map((at) => ask(at) as BestPlan);
  const goal = limits.tolerance * Math.max(...first.map(({ scale }) => scale));
  const stretches: Stretch[] = first
    .slice(1)
    .map((b, i) => ({ a: first[i], b, deviation: Number.POSITIVE_INFINITY }));
  while (stretches.length > 0) {
    const widest = stretches.reduce(
      (best, { deviation }, i) => (deviation > stretches[best].deviation ? i : best),
      0,
    );
    const { a, b, deviation } = stretches[widest];
    const isMeasured = Number.isFinite(deviation);
    if (isMeasured && (deviation <= goal || stretches.length >= most)) break;
    const middle = ask((a.at + b.at) / 2);
    if (middle === undefined) break;
    const found = Math.abs(middle.value - (a.value + b.value) / 2);
    stretches.splice(widest, 1, { a, b: middle, deviation: found }, { a: middle, b, deviation: found });
  }
  const samples = stretches.length === 0 ? first : [stretches[0].a, ...stretches.map(({ b }) => b)];
  return { samples, error: Math.max(0, ...stretches.map(({ deviation }) => deviation)) };
}

function pointsOf(samples: readonly BestPlan[]): SweepPoint[] {
  return samples.map(({ at, value, plan }, i) => {
    const next = samples[i + 1];
    const moves = next === undefined ? [] : movesBetween(plan.quantities, next.plan.quantities);
    return {
      at,
      value,
      kind: i === 0 || next === undefined ? 'end' : 'sample',
      ...(i === 0 ? {} : { tonnesLeft: plan.tonnes }),
      ...(next === undefined && i > 0 ? {} : { tonnesRight: plan.tonnes }),
      ...(moves.length === 0 ? {} : { onward: moves }),
    };
  });
}

function gaps(parts: readonly (readonly [number, number])[], from: number, to: number) {
  const result: { from: number; to: number }[] = [];
  let reached = from;
  for (const [start, end] of parts) {
    if (start > reached) result.push({ from: reached, to: start });
    reached = end;
  }
  if (to > reached || parts.length === 0) result.push({ from: reached, to });
  return result;
}
