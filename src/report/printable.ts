import { eastAsianWidth } from 'get-east-asian-width';

/** Text that cannot steer a terminal: control characters, line breaks and direction marks become U+FFFD. */
export function printable(text: string): string {
  return text.replace(/[\p{Cc}\u2028\u2029\u200e\u200f\u202a-\u202e\u2066-\u2069]/gu, '\ufffd');
}

/** Columns that a printable text takes on a terminal: wide characters count 2, combining marks 0. */
export function displayWidth(text: string): number {
  if (/^[ -~]*$/.test(text)) return text.length;
  let width = 0;
  for (const character of text) {
    if (!/[\p{M}\u200d]/u.test(character)) width += eastAsianWidth(character.codePointAt(0) ?? 0);
  }
  return width;
}
