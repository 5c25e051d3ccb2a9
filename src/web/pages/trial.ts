import { figuresOf, withParameter } from '../../analysis/variant/parameter.js';
import type { ScenarioNumber } from '../../report/scenario-numbers.js';

/** A number as a page tries it, and what it is in the stored scenario. */
export interface Tried {
  readonly pointer: string;
  readonly name: string;
  readonly unit: string;
  readonly before: number;
  readonly value: number;
}

export interface Trial {
  readonly document: unknown;
  readonly tried: readonly Tried[];
  /** What could not be tried, in words. */
  readonly problems: readonly string[];
}

/**
 * A scenario with other numbers, as the address of a page has them: `set=/outlets/turf/price=210`, as often as
 * wanted; `number` and `value` add one more, as the form sends it.
 */
export function trialOf(
  document: unknown,
  numbers: readonly ScenarioNumber[],
  query: URLSearchParams,
): Trial {
  const wanted = query.getAll('set').map((text) => {
    const at = text.lastIndexOf('=');
    return { pointer: text.slice(0, at), text: text.slice(at + 1) };
  });
  const number = query.get('number');
  if (number !== null && number !== '') wanted.push({ pointer: number, text: query.get('value') ?? '' });
  let changed = document;
  const tried = new Map<string, Tried>();
  const problems: string[] = [];
  for (const { pointer, text } of wanted) {
    const known = numbers.find((each) => each.pointer === pointer);
    const value = readNumber(text);
    if (known === undefined) problems.push(`There is no number ${pointer} in this scenario.`);
    else if (value === undefined) problems.push(`${known.name}: '${text}' is no number. Write it as 1234.5.`);
    else {
      const parameter = { pointers: [pointer], kind: 'value' } as const;
      const found = figuresOf(changed, parameter);
      if (!found.ok) problems.push(...found.problems.map(({ message }) => message));
      else {
        changed = withParameter(changed, parameter, found.figures, value);
        const { name, unit, value: before } = known;
        tried.set(pointer, { pointer, name, unit, before, value });
      }
    }
  }
  return { document: changed, tried: [...tried.values()], problems };
}

/** A number as people write it: commas between thousands and spaces around are passed over. */
export function readNumber(text: string): number | undefined {
  const plain = text.trim().replace(/,(?=\d{3}(\D|$))/g, '');
  return /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(plain) ? Number(plain) : undefined;
}
