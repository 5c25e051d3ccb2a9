import { createHash } from 'node:crypto';
import { html, raw } from 'hono/html';
import type { JsonSchema } from './components.js';
import type { OpenApiDocument, Operation } from './openapi.js';

const STYLE = `
:root { color-scheme: light dark; --line: light-dark(#c8c8c8, #4a4a4a); --soft: light-dark(#f4f4f2, #232322); }
body { font: 16px/1.5 system-ui, sans-serif; margin: 0 auto; padding: 1rem; max-width: 60rem; }
code, pre { font: 0.9em/1.4 ui-monospace, monospace; overflow-wrap: anywhere; }
pre { background: var(--soft); padding: 0.75rem; overflow-x: auto; white-space: pre-wrap; }
section { border-top: 1px solid var(--line); padding: 0.5rem 0; }
table { border-collapse: collapse; width: 100%; }
th, td { border-bottom: 1px solid var(--line); padding: 0.3rem 0.6rem 0.3rem 0; text-align: left; vertical-align: top; }
.method { font-weight: 700; }
`;

/** What a Content-Security-Policy names the page's style by. */
export const REFERENCE_STYLE_SOURCE = `sha256-${createHash('sha256').update(STYLE).digest('base64')}`;

/** The API's documentation as one page of HTML, with nothing to load. */
export function referencePage(document: OpenApiDocument): string {
  const operations = Object.entries(document.paths).flatMap(([path, methods]) =>
    Object.entries(methods).map(([method, operation]) => ({ method: method.toUpperCase(), path, operation })),
  );
  const tags = [...new Set(operations.map(({ operation }) => operation.tags[0]))];
  return String(html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width">
<title>${document.info.title} ${document.info.version}: reference of the API</title>
<style>${raw(STYLE)}</style>
</head>
<body>
<header>
<h1>${document.info.title} ${document.info.version}</h1>
${paragraphs(document.info.description)}
<p>For programs: <a href="openapi.json">openapi.json</a> (OpenAPI ${document.openapi}).</p>
</header>
<nav aria-label="Operations"><ul>
${operations.map(({ method, path, operation }) => html`<li><a href="#${operation.operationId}"><code>${method} ${path}</code></a> ${operation.summary}</li>`)}
</ul></nav>
<main>
${tags.map((tag) => html`<h2>${tag}</h2>${operations.filter(({ operation }) => operation.tags[0] === tag).map(operationSection)}`)}
<h2>Shapes</h2>
${Object.entries(document.components.schemas).map(schemaSection)}
</main>
</body>
</html>`);
}

function operationSection({
  method,
  path,
  operation,
}: {
  method: string;
  path: string;
  operation: Operation;
}) {
  const body = operation.requestBody?.content['application/json'];
  return html`<section id="${operation.operationId}">
<h3><code><span class="method">${method}</span> ${path}</code></h3>
<p>${operation.summary}.</p>
${paragraphs(operation.description ?? '')}
${parametersTable(operation.parameters)}
${body === undefined ? '' : html`<p>Body: ${shapeOf(body.schema)}</p>`}
${Object.values(body?.examples ?? {}).map(({ value }) => html`<pre>${JSON.stringify(value, undefined, 2)}</pre>`)}
<table>
<thead><tr><th scope="col">Status</th><th scope="col">When</th><th scope="col">Body</th></tr></thead>
<tbody>
${Object.entries(operation.responses).map(
  ([status, { description, content }]) =>
    html`<tr><th scope="row">${status}</th><td>${paragraphs(description)}</td><td>${Object.entries(content ?? {}).map(([type, media]) => html`${shapeOf(media.schema)} <code>${type}</code>`)}</td></tr>`,
)}
</tbody>
</table>
</section>`;
}

function parametersTable(parameters: readonly JsonSchema[]) {
  if (parameters.length === 0) return '';
  return html`<table>
<thead><tr><th scope="col">Parameter</th><th scope="col">In</th><th scope="col">What it says</th></tr></thead>
<tbody>${parameters.map((each) => html`<tr><th scope="row"><code>${String(each.name)}</code></th><td>${String(each.in)}</td><td>${code(String(each.description ?? ''))}</td></tr>`)}</tbody>
</table>`;
}

function schemaSection([name, schema]: [string, JsonSchema]) {
  return html`<section id="shape-${name}">
<h3>${name}</h3>
${paragraphs(String(schema.description ?? ''))}
<details><summary>JSON Schema</summary><pre>${JSON.stringify(schema, undefined, 2)}</pre></details>
</section>`;
}

function shapeOf(schema: JsonSchema | undefined) {
  const name = typeof schema?.$ref === 'string' ? schema.$ref.split('/').at(-1) : undefined;
  return name === undefined ? '' : html`<a href="#shape-${name}">${name}</a>`;
}

function paragraphs(text: string) {
  return text === '' ? '' : text.split('\n\n').map((paragraph) => html`<p>${code(paragraph)}</p>`);
}

/** Text with what stands between backticks as code. */
function code(text: string) {
  return text.split('`').map((part, i) => (i % 2 === 1 ? html`<code>${part}</code>` : part));
}
