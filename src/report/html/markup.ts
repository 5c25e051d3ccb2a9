/** Text that is HTML already. */
export class Markup {
  constructor(readonly text: string) {}
}

export type Content = Markup | string | number | undefined | false | readonly Content[];

/**
 * HTML from a template: what is put in is text and stays text, unless it is markup itself. Nothing stands for
 * undefined and false.
 *
 * @example html`<td>${'a < b'}</td>`.text // '<td>a &lt; b</td>'
 */
export function html(parts: TemplateStringsArray, ...contents: readonly Content[]): Markup {
  return new Markup(parts.reduce((text, part, i) => text + written(contents[i - 1]) + part));
}

/** Markup that was made elsewhere, such as a drawing. */
export function ready(text: string): Markup {
  return new Markup(text);
}

function written(content: Content): string {
  if (content === undefined || content === false) return '';
  if (content instanceof Markup) return content.text;
  if (typeof content === 'object') return content.map(written).join('');
  return escaped(String(content));
}

/** Characters that HTML gives a meaning, in text and in quoted attributes. */
function escaped(text: string): string {
  return text
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;')
    .replaceAll("'", '&#39;');
}
