import type { ReportUnits } from '../../report/figure.js';
import { html, type Markup } from '../../report/html/markup.js';
import { type ScenarioNumber, scenarioNumbers } from '../../report/scenario-numbers.js';
import type { ApiContext } from '../api/route.js';
import type { ApiServices } from '../api/services.js';
import { storedScenarioOf } from '../api/stored-scenario-of.js';
import type { SectionPath, Shell } from './shell.js';

/** What every page of a stored scenario starts from. */
export interface ScenarioPage {
  readonly name: string;
  readonly title: string;
  readonly etag: string;
  readonly document: Readonly<Record<string, unknown>>;
  readonly units: ReportUnits;
  readonly numbers: readonly ScenarioNumber[];
  readonly query: URLSearchParams;
  readonly shell: NonNullable<Shell['scenario']>;
}

/** @throws Refusal where there is no such scenario, or it is broken */
export async function scenarioPage(
  services: ApiServices,
  context: ApiContext,
  section: SectionPath,
): Promise<ScenarioPage> {
  const stored = await storedScenarioOf(services, context.req.param('name') ?? '');
  const { text, etag, name, check } = stored;
  const document = JSON.parse(text.replace(/^\uFEFF/, ''));
  const units = document.units as ReportUnits;
  const listings = await services.library.list();
  const others = listings.flatMap((each) =>
    each.state === 'good' ? [{ name: each.name, title: each.title }] : [],
  );
  return {
    name,
    title: check.title ?? name,
    etag,
    document,
    units,
    numbers: scenarioNumbers(document, units),
    query: new URL(context.req.url).searchParams,
    shell: { name, section, others },
  };
}

/** Numbers to choose from, by what they belong to; each carries its value and unit for a script. */
export function numberOptions(numbers: readonly ScenarioNumber[], chosen: string | undefined): Markup {
  const groups = [...new Set(numbers.map(({ group }) => group))];
  return html`${groups.map(
    (group) =>
      html`<optgroup label="${group}">${numbers
        .filter((each) => each.group === group)
        .map(
          ({ pointer, name, unit, value }) =>
            html`<option value="${pointer}" data-value="${value}" data-unit="${unit}"${pointer === chosen && html` selected`}>${name}${unit !== '' && ` (${unit})`}</option>`,
        )}</optgroup>`,
  )}`;
}
