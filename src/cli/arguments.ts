import { type ParseArgsConfig, parseArgs } from 'node:util';
import { UsageError } from './exit-code.js';

type Options = NonNullable<ParseArgsConfig['options']>;

/**
 * Options and the other words of a command's arguments.
 *
 * @throws UsageError for an unknown option, an option without its value, or another number of words.
 */
export function readArguments<O extends Options>(
  args: readonly string[],
  options: O,
  words: { readonly least: number; readonly most: number; readonly called: string },
) {
  const parsed = parse(args, options);
  const { length } = parsed.positionals;
  if (length < words.least) throw new UsageError(`Give ${words.called}.`);
  if (length > words.most) {
    throw new UsageError(`Too many words: ${parsed.positionals.slice(words.most).join(' ')}.`);
  }
  return parsed;
}

/** @throws UsageError where the text is not a finite number above 0. */
export function readPositive(option: string, text: string | undefined): number | undefined {
  if (text === undefined) return undefined;
  const value = text.trim() === '' ? Number.NaN : Number(text);
  if (!Number.isFinite(value) || value <= 0) {
    throw new UsageError(`${option} takes a number above 0, not '${text}'.`);
  }
  return value;
}

/** @throws UsageError where the text is none of the choices. */
export function readChoice<T extends string>(what: string, text: string, choices: readonly T[]): T {
  const chosen = choices.find((choice) => choice === text);
  if (chosen === undefined) throw new UsageError(`${what} is one of ${choices.join(', ')}, not '${text}'.`);
  return chosen;
}

function parse<O extends Options>(args: readonly string[], options: O) {
  try {
    return parseArgs({ args: withNegatives(args, options), options, allowPositionals: true });
  } catch (error) {
    if (error instanceof TypeError && 'code' in error && String(error.code).startsWith('ERR_PARSE_ARGS')) {
      throw new UsageError(`${error.message.split('. ')[0].replace(/\.$/, '')}.`);
    }
    throw error;
  }
}

/** `--from -2` as `--from=-2`: a number below zero after an option that takes one is no option. */
function withNegatives(args: readonly string[], options: Options): string[] {
  const joined: string[] = [];
  for (const word of args) {
    const before = joined.at(-1);
    const isTaken = before?.startsWith('--') === true && options[before.slice(2)]?.type === 'string';
    if (isTaken && /^-[\d.]/.test(word)) joined[joined.length - 1] = `${before}=${word}`;
    else joined.push(word);
  }
  return joined;
}
