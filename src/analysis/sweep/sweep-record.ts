import type { PointSolver, SolvedPoint } from './solve-point.js';
import type { Reach, SweepAnswer, SweepError, SweepPoint, SweepRange } from './sweep-answer.js';

export interface SweepProgress {
  readonly done: number;
  /** Of the values asked so far. */
  readonly lowest: number;
  readonly highest: number;
}

const REACHES: readonly Reach[] = [
  'nothing',
  'objective',
  'right sides',
  'both',
  'matrix',
  'curved',
  'whole numbers',
];

/** Relative to the scale: what differs by less is one value. */
const SAME_VALUE = 1e-8;

/** Collects what a sweep finds, piece by piece from left to right. */
export class SweepRecord {
  private readonly points: SweepPoint[] = [];
  private readonly ranges: SweepRange[] = [];
  private exact = true;
  private reach: Reach = 'nothing';
  private error: SweepError | undefined;
  private scale = 0;
  private planGap: number | undefined;
  private status: SweepAnswer['status'] = 'complete';
  private done = 0;
  private lowest = Number.POSITIVE_INFINITY;
  private highest = Number.NEGATIVE_INFINITY;

  constructor(
    private readonly from: number,
    private readonly to: number,
    private readonly onProgress: ((progress: SweepProgress) => void) | undefined,
  ) {}

  range(range: SweepRange): void {
    if (range.status === 'not asked') this.status = 'partial';
    if (range.to > range.from || range.status === 'answered' || this.from === this.to)
      this.ranges.push(range);
  }

  /** A point that was asked: for the progress. */
  asked({ value, scale, gap }: Pick<SolvedPoint, 'value' | 'scale'> & { readonly gap?: number }): void {
    this.done += 1;
    if (gap !== undefined) this.planGap = Math.max(this.planGap ?? 0, gap);
    this.lowest = Math.min(this.lowest, value);
    this.highest = Math.max(this.highest, value);
    this.scale = Math.max(this.scale, scale);
    this.onProgress?.({ done: this.done, lowest: this.lowest, highest: this.highest });
  }

  answered(reach: Reach, points: readonly SweepPoint[], error?: SweepError): void {
    if (REACHES.indexOf(reach) > REACHES.indexOf(this.reach)) this.reach = reach;
    if (error !== undefined) this.exact = false;
    this.error = worse(this.error, error);
    if (points.length > 0)
      this.range({ from: points[0].at, to: points[points.length - 1].at, status: 'answered' });
    for (const point of points) this.add(point);
  }

  answer(solver?: Pick<PointSolver, 'solves' | 'planSolves'>): SweepAnswer {
    return {
      status: this.status,
      exact: this.exact && this.points.length > 0 && this.status === 'complete',
      reach: this.reach,
      ranges: joined([...this.ranges].sort((a, b) => a.from - b.from || a.to - b.to)),
      points: this.points,
      ...(this.error === undefined ? {} : { error: this.error }),
      ...(this.planGap === undefined ? {} : { planGap: this.planGap }),
      solves: solver?.solves ?? 0,
      planSolves: solver?.planSolves ?? 0,
      scale: this.scale,
    };
  }

  /** Two pieces meet in one point; it is a breakpoint only where the curve bends. */
  private add(point: SweepPoint): void {
    const last = this.points.at(-1);
    const isSame =
      last !== undefined &&
      last.at === point.at &&
      Math.abs(last.value - point.value) <= SAME_VALUE * Math.max(this.scale, Number.MIN_VALUE);
    if (!isSame) {
      this.points.push(point);
      return;
    }
    this.points.pop();
    const { slopeLeft } = last;
    const { slopeRight, tonnesRight, onward } = point;
    const start = this.points.at(-1)?.at ?? last.at;
    const bend = Math.abs((slopeRight ?? 0) - (slopeLeft ?? 0)) * Math.max(last.at - start, 0);
    const isKnown = slopeLeft !== undefined && slopeRight !== undefined;
    if (isKnown && bend <= SAME_VALUE * this.scale && this.points.length > 0) return;
    const isEnd = slopeLeft === undefined && this.points.length === 0;
    this.points.push({
      ...last,
      ...(slopeRight === undefined ? {} : { slopeRight }),
      ...(tonnesRight === undefined ? {} : { tonnesRight }),
      kind: isEnd ? 'end' : isKnown ? 'breakpoint' : 'sample',
      ...(isKnown && !isEnd ? { isBend: true as const } : {}),
      ...(onward === undefined ? {} : { onward }),
    });
  }
}

function worse(a: SweepError | undefined, b: SweepError | undefined): SweepError | undefined {
  if (a === undefined || b === undefined) return a ?? b;
  const kind = a.kind === 'measured' || b.kind === 'measured' ? 'measured' : 'proved';
  return { kind, amount: Math.max(a.amount, b.amount) };
}

function joined(ranges: readonly SweepRange[]): SweepRange[] {
  const result: SweepRange[] = [];
  for (const range of ranges) {
    const last = result.at(-1);
    const isSame = last?.status === 'answered' && range.status === 'answered' && last.to >= range.from;
    if (isSame) result[result.length - 1] = { ...last, to: Math.max(last.to, range.to) };
    else result.push(range);
  }
  return result;
}
