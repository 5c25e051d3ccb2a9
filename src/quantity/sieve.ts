/** A woven wire test sieve: its ASTM E11 designation and its nominal opening in mm. */
export interface Sieve {
  readonly name: string;
  readonly opening: number;
}

/**
 * Test sieves, coarsest first; the openings are those of ISO 3310-1. Numbers 4, 8, 10, 16, 30, 50, 100 and 200
 * are seen in published gradation tables, the rest is from memory of the standard. Older tables print
 * superseded openings (No. 8 = 2.38 mm, No. 30 = 0.59 mm).
 */
export const SIEVES: readonly Sieve[] = [
  { name: '4 in', opening: 100 },
  { name: '3 in', opening: 75 },
  { name: '2 in', opening: 50 },
  { name: '1 1/2 in', opening: 37.5 },
  { name: '1 in', opening: 25 },
  { name: '3/4 in', opening: 19 },
  { name: '5/8 in', opening: 16 },
  { name: '1/2 in', opening: 12.5 },
  { name: '3/8 in', opening: 9.5 },
  { name: '5/16 in', opening: 8 },
  { name: '1/4 in', opening: 6.3 },
  { name: 'No. 3 1/2', opening: 5.6 },
  { name: 'No. 4', opening: 4.75 },
  { name: 'No. 5', opening: 4 },
  { name: 'No. 6', opening: 3.35 },
  { name: 'No. 7', opening: 2.8 },
  { name: 'No. 8', opening: 2.36 },
  { name: 'No. 10', opening: 2 },
  { name: 'No. 12', opening: 1.7 },
  { name: 'No. 14', opening: 1.4 },
  { name: 'No. 16', opening: 1.18 },
  { name: 'No. 18', opening: 1 },
  { name: 'No. 20', opening: 0.85 },
  { name: 'No. 25', opening: 0.71 },
  { name: 'No. 30', opening: 0.6 },
  { name: 'No. 35', opening: 0.5 },
  { name: 'No. 40', opening: 0.425 },
  { name: 'No. 45', opening: 0.355 },
  { name: 'No. 50', opening: 0.3 },
  { name: 'No. 60', opening: 0.25 },
  { name: 'No. 70', opening: 0.212 },
  { name: 'No. 80', opening: 0.18 },
  { name: 'No. 100', opening: 0.15 },
  { name: 'No. 120', opening: 0.125 },
  { name: 'No. 140', opening: 0.106 },
  { name: 'No. 170', opening: 0.09 },
  { name: 'No. 200', opening: 0.075 },
  { name: 'No. 230', opening: 0.063 },
  { name: 'No. 270', opening: 0.053 },
  { name: 'No. 325', opening: 0.045 },
  { name: 'No. 400', opening: 0.038 },
];

const OPENINGS: ReadonlyMap<string, number> = new Map(
  SIEVES.map(({ name, opening }) => [plain(name), opening]),
);

const MICROMETERS_PER_MILLIMETER = 1000;

const SAME_OPENING = 1e-9;

export type SieveReading =
  | { readonly kind: 'opening' /** mm */; readonly opening: number }
  | { readonly kind: 'unknown' /** Designations that are nearest. */; readonly nearest: readonly string[] };

/**
 * The opening in mm of a number (mm) or of a designation: "No. 30", "3/8 in", "600 um", "600 µm", "2.36 mm".
 * A designation must be one of the table; a number may be any opening (of a perforated plate, say).
 */
export function readSieve(designation: number | string): SieveReading {
  if (typeof designation === 'number') return { kind: 'opening', opening: designation };
  const named = OPENINGS.get(plain(designation));
  if (named !== undefined) return { kind: 'opening', opening: named };
  const [, size, unit] = /^(\d+(?:\.\d+)?)\s*(mm|um|µm|μm)$/i.exec(designation.trim()) ?? [];
  if (size !== undefined) {
    return byOpening(unit!.toLowerCase() === 'mm' ? Number(size) : Number(size) / MICROMETERS_PER_MILLIMETER);
  }
  const [, number] = /^no\.?\s*(\d+)$/i.exec(designation.trim()) ?? [];
  if (number === undefined) return { kind: 'unknown', nearest: ['No. 30', '600 um', '2.36 mm'] };
  return { kind: 'unknown', nearest: nearestNumbers(Number(number)) };
}

/** The size of an opening in words: micrometers under 1 mm. */
export function openingName(opening: number): string {
  return opening < 1
    ? `${Number((opening * MICROMETERS_PER_MILLIMETER).toFixed(3))} um`
    : `${Number(opening.toFixed(6))} mm`;
}

function byOpening(opening: number): SieveReading {
  const known = SIEVES.find((sieve) => Math.abs(sieve.opening - opening) < SAME_OPENING);
  if (known !== undefined) return { kind: 'opening', opening: known.opening };
  const ratio = (sieve: Sieve) => Math.abs(Math.log(sieve.opening / opening));
  const nearest = [...SIEVES].sort((a, b) => ratio(a) - ratio(b)).slice(0, 2);
  return { kind: 'unknown', nearest: nearest.map((sieve) => openingName(sieve.opening)) };
}

function nearestNumbers(number: number): string[] {
  const numbered = SIEVES.flatMap(({ name }) => /^No\. (\d+)$/.exec(name)?.[1] ?? []).map(Number);
  const distance = (candidate: number) => Math.abs(candidate - number);
  numbered.sort((a, b) => distance(a) - distance(b));
  return numbered.slice(0, 2).map((candidate) => `No. ${candidate}`);
}

/** A designation without what writers do differently: case, spaces and dots. */
function plain(designation: string): string {
  return designation
    .toLowerCase()
    .replaceAll(/[\s.]+/g, ' ')
    .trim();
}
