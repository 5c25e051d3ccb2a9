import { html, type Markup } from '../../report/html/markup.js';
import { printable } from '../../report/printable.js';
import { type ScriptName, scriptPath, stylePath } from './assets.js';

export const SECTIONS = [
  ['plan', 'Plan'],
  ['offer', 'Offer'],
  ['what-ifs', 'What-ifs'],
  ['plant', 'Plant'],
] as const;

export type SectionPath = (typeof SECTIONS)[number][0];

export interface Shell {
  readonly title: string;
  readonly scripts?: readonly ScriptName[];
  /** Of which scenario the page is, and which others there are. */
  readonly scenario?: {
    readonly name: string;
    readonly section: SectionPath;
    readonly others: readonly { readonly name: string; readonly title: string }[];
  };
}

/** A whole page around its content. */
export function shell(own: Shell, content: Markup, foot?: Markup): Markup {
  return html`${shellHead(own)}${shellRest(content, foot)}`;
}

/** All that stands before the content, with a word for those who wait for it. */
export function shellHead({ title, scripts = [], scenario }: Shell): Markup {
  return html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${printable(title)}</title>
<link rel="icon" href="data:,">
<link rel="stylesheet" href="${stylePath()}">
${scripts.map((name) => html`<script type="module" src="${scriptPath(name)}"></script>`)}
</head>
<body>
<a class="skip" href="#content">To the content</a>
<header class="top">
<a class="name" href="/">cutpoint</a>
${scenario !== undefined && navigation(scenario)}
</header>
<p class="waiting" role="status">Working it out …</p>
`;
}

export function shellRest(content: Markup, foot?: Markup): Markup {
  return html`<main id="content" tabindex="-1">
${content}
</main>
<footer>${foot}<p>A plan on paper is no permit: local codes, the authority that grants permits, and licensed practice come first. <a href="/reference">For programs: the API</a></p></footer>
</body>
</html>
`;
}

function navigation({ name, section, others }: NonNullable<Shell['scenario']>): Markup {
  return html`<nav aria-label="Pages"><ul>${SECTIONS.map(
    ([path, label]) =>
      html`<li><a href="/scenarios/${name}/${path}"${path === section && html` aria-current="page"`}>${label}</a></li>`,
  )}</ul></nav>
<form action="/open" method="get" class="screen">
<label for="scenario">Scenario</label>
<select id="scenario" name="scenario">${others.map((other) => html`<option value="${other.name}"${other.name === name && html` selected`}>${printable(other.title)}</option>`)}</select>
<input type="hidden" name="page" value="${section}">
<button class="quiet">Open</button>
</form>`;
}
