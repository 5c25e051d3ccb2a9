import { type PlainIssue, valueAt } from './best-branch.js';
import type { Finding } from './finding.js';
import { nearest } from './nearest.js';
import { listed } from './place.js';
import type { Path } from './pointer.js';
import { knownKeysAt } from './schema-walk.js';

/** An unknown key and, where one is near, the key that it stands for. */
export interface UnknownKey {
  readonly finding: Finding;
  /** Path of the key that was probably meant. */
  readonly meant?: Path;
}

/** Lists whose entries will one day say at which site they are. */
const WITH_SITE = ['machines', 'crews', 'feeds', 'stores', 'windows'];

const PERIODS =
  /^(first)?(day|week|fortnight|quarter|half|year|hour|shift|period)s?(length)?$|^(granularity|periodicity)$/i;

/** One finding for each key that the format does not know, with the key that was probably meant. */
export function unknownKeys(
  issue: Extract<PlainIssue, { code: 'unrecognized_keys' }>,
  document: unknown,
  missing: readonly Path[],
): UnknownKey[] {
  const path = issue.path as Path;
  const present = Object.keys((valueAt(document, path) ?? {}) as object);
  const absent = knownKeysAt(path).filter((key) => !present.includes(key));
  const lacking = missing
    .filter((place) => place.length === path.length + 1 && path.every((key, i) => key === place[i]))
    .map((place) => String(place[path.length]));
  return issue.keys
    .filter((key) => key !== '__proto__')
    .map((key) => {
      const exclusive = knownKeysAt(path).includes(key);
      const reserved = isReserved(path, key, present);
      const meant = exclusive || reserved ? undefined : (nearest(key, lacking) ?? nearest(key, absent));
      return {
        ...(meant === undefined ? {} : { meant: [...path, meant] }),
        finding: {
          path: [...path, key],
          kind: 'unknown key',
          ...(reserved
            ? reservedFinding(key)
            : exclusive
              ? exclusiveFinding(key, present)
              : unknownFinding(key, meant, absent)),
        },
      };
    });
}

/** The keys of the horizon that a period other than the month makes pointless. */
export function isSupersededByPeriod(place: Path, findings: readonly Finding[]): boolean {
  return (
    place.length === 2 &&
    place[0] === 'horizon' &&
    findings.some(({ code, path }) => code === 'reserved' && path[0] === 'horizon')
  );
}

function isReserved(path: Path, key: string, present: readonly string[]): boolean {
  if (key === 'site' || key === 'sites') {
    return path.length === 0 || WITH_SITE.some((list) => path[path.length - 2] === list);
  }
  if (key === 'currency') return present.includes('amount') || present.includes('per');
  return path.length === 1 && path[0] === 'horizon' && PERIODS.test(key);
}

/** As many free keys as are worth naming. */
const FEW = 12;

function reservedFinding(key: string): Pick<Finding, 'code' | 'text' | 'remedy'> {
  const remedies: Readonly<Record<string, string>> = {
    site: 'Delete it, and write one scenario for each site',
    sites: 'Delete it, and write one scenario for each site',
    currency: 'Delete it, and write every amount in the currency of `units`',
  };
  return {
    code: 'reserved',
    text: `\`${key}\` is reserved for later`,
    remedy: remedies[key] ?? 'Delete it, and write the horizon with `firstMonth` and `months`',
  };
}

function exclusiveFinding(
  key: string,
  present: readonly string[],
): Pick<Finding, 'code' | 'text' | 'remedy'> {
  const others = listed(
    present.filter((other) => other !== key).map((other) => `\`${other}\``),
    'and',
  );
  return {
    code: 'conflict',
    text: `\`${key}\` does not go together with ${others}`,
    remedy: 'Keep one form and delete the other',
  };
}

function unknownFinding(
  key: string,
  meant: string | undefined,
  absent: readonly string[],
): Pick<Finding, 'code' | 'text' | 'remedy'> {
  const free = absent.filter((other) => other !== '$schema').map((other) => `\`${other}\``);
  return {
    code: 'unknown key',
    text: `\`${key}\` is no key of the format`,
    remedy:
      meant !== undefined
        ? `Rename it \`${meant}\`, or delete it`
        : free.length === 0 || free.length > FEW
          ? 'Delete it'
          : `Delete it; the keys that are still free here are ${listed(free, 'and')}`,
  };
}
