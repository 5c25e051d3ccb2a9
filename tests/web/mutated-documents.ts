import { expect } from 'vitest';
import { type Random, seededRandom } from '../generate/random.js';
import { SMALL_WORKS } from '../report/small-works.js';
import type { TestApi } from './test-api.js';

const SEED = 20_270_301;

/** Milliseconds after which an answer is taken to hang. */
const HANGING = 60_000;

/** Sends so many mutated documents, the same ones each time. Returns how often each status was answered. */
export async function sendMutated(
  api: TestApi,
  count: number,
  first = 0,
): Promise<ReadonlyMap<number, number>> {
  const statuses = new Map<number, number>();
  for (let i = first; i < first + count; i++) {
    const random = seededRandom(SEED + i, 'mutated');
    const { method, path, headers, body } = request(random);
    const response = await inTime(
      api.send(method, path, { body: mutatedText(JSON.stringify(body), random), headers }),
      SEED + i,
    );
    const { status } = response;
    const isFine = (status >= 200 && status < 300) || (status >= 400 && status < 500) || status === 503;
    const faults = api.log.flatMap(({ fault }) => fault ?? []);
    expect(isFine, `${i}: ${method} ${path} ${status} ${faults.at(-1)}`).toBe(true);
    if (status >= 400) expect(response.headers.get('Content-Type')).toBe('application/problem+json');
    statuses.set(status, (statuses.get(status) ?? 0) + 1);
  }
  return statuses;
}

async function inTime(answer: Promise<Response>, seed: number): Promise<Response> {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(new Error(`hangs: seed ${seed}`)), HANGING);
  });
  return Promise.race([answer, late]).finally(() => clearTimeout(timer));
}

const PARAMETER = { pointers: ['/outlets/grounds/tiers/0/price'], kind: 'factor' };

const UNCERTAIN = {
  target: '/feeds/shops/tippingFee',
  distribution: { kind: 'normal', sigma: 0.1 },
};

interface Sent {
  readonly method: string;
  readonly path: string;
  readonly headers: Readonly<Record<string, string>>;
  readonly body: unknown;
}

/** A request, its body changed in a place or several. */
function request(random: Random): Sent {
  const scenario = mutated(SMALL_WORKS, random, random.integer(0, 3));
  const kind = random.integer(0, 9);
  if (kind === 0) {
    return { method: 'PUT', path: '/scenarios/mutated', headers: { 'If-Match': '*' }, body: scenario };
  }
  if (kind === 1) {
    const offer = mutated(SMALL_WORKS.contracts![0], random, 2);
    return {
      method: 'PUT',
      path: '/scenarios/works/offers/mats',
      headers: { 'If-None-Match': '*' },
      body: offer,
    };
  }
  const [path, options] = random.pick([
    ['/check', {}],
    ['/check', {}],
    ['/plan', {}],
    [
      '/plan',
      {
        patch: [
          { op: 'replace', path: '/title', value: 'Patched' },
          { op: 'test', path: '/format', value: 'x' },
        ],
      },
    ],
    ['/explain', {}],
    ['/sweep', { parameter: PARAMETER, from: 0.9, to: 1.1 }],
    ['/tornado', { items: [{ parameter: PARAMETER, low: 0.9, high: 1.1 }] }],
    ['/comparison', { after: { scenario: 'works', patch: { title: 'After' } } }],
    ['/fee', { feeds: [{ feed: 'shops', low: 150, high: 260 }], points: 3 }],
    ['/risk', { seed: 7, draws: 3, level: 0, patch: { uncertainty: [UNCERTAIN] } }],
    ['/offer', { offer: { ...SMALL_WORKS.contracts![0], id: 'second' }, margin: 5, volumes: [40] }],
  ] as const);
  const asked = random.chance(0.6) ? options : mutated(options, random, 1);
  const whole = {
    scenario: random.chance(0.5) ? scenario : 'works',
    seconds: 5,
    ...(typeof asked === 'object' ? asked : { asked }),
  };
  return { method: 'POST', path, headers: {}, body: random.chance(0.5) ? whole : mutated(whole, random, 1) };
}

const ODD: readonly unknown[] = [
  null,
  true,
  false,
  0,
  -1,
  1e308,
  -1e308,
  5e-324,
  1e-9,
  2 ** 53,
  0.1,
  '',
  ' ',
  '\u0000',
  '\ud83d\ude00',
  'works',
  '__proto__',
  'constructor',
  '../works',
  '2027-02-31',
  '9999-12',
  'NaN',
  [],
  {},
  [[]],
  [null],
  { amount: 1 },
  { amount: -1, per: 'tire' },
  { from: '2027-11', values: [] },
  'x'.repeat(5000),
  [1, 2, 3],
  { per: 'GJ', amount: 1e300 },
];

/** A copy with so many places deleted, replaced, doubled, swapped or renamed. */
function mutated(value: unknown, random: Random, times: number): unknown {
  const copy: unknown = structuredClone(value);
  for (let i = 0; i < times; i++) {
    const places = placesIn(copy);
    if (places.length === 0) return random.pick(ODD);
    const { holder, key } = random.pick(places);
    const list = Array.isArray(holder);
    switch (random.integer(0, 5)) {
      case 0:
        if (list) holder.splice(Number(key), 1);
        else delete holder[key];
        break;
      case 1:
        if (list) holder.push(structuredClone(holder[Number(key)]));
        else holder[`${key}2`] = holder[key];
        break;
      case 2: {
        const other = random.pick(places);
        (holder as Record<string, unknown>)[key] = structuredClone(
          (other.holder as Record<string, unknown>)[other.key],
        );
        break;
      }
      case 3: {
        const old = (holder as Record<string, unknown>)[key];
        if (typeof old === 'number')
          (holder as Record<string, unknown>)[key] = old * random.pick([-1, 0, 1e-6, 0.5, 2, 1e6, 1e150]);
        break;
      }
      default:
        (holder as Record<string, unknown>)[key] = random.pick(ODD);
    }
  }
  return copy;
}

interface Place {
  readonly holder: Record<string, unknown> | unknown[];
  readonly key: string;
}

function placesIn(value: unknown): Place[] {
  if (typeof value !== 'object' || value === null) return [];
  const holder = value as Record<string, unknown>;
  return Object.keys(holder).flatMap((key) => [{ holder, key }, ...placesIn(holder[key])]);
}

/** The text as it is, mostly; else with a character cut out, doubled, exchanged, or the end missing. */
function mutatedText(text: string, random: Random): string {
  if (random.chance(0.85)) return text;
  const at = random.integer(0, text.length - 1);
  const odd = random.pick(['"', '{', ']', ',', ':', '\\', '\u0000', '\ufeff', '1e999', '/*', 'é', '\\ud800']);
  return random.pick([
    text.slice(0, at),
    text.slice(0, at) + text.slice(at + 1),
    text.slice(0, at) + odd + text.slice(at),
    text.slice(at) + text.slice(0, at),
  ]);
}
