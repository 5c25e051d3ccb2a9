import type { Check } from '../../host/order.js';
import type { LibraryReading } from '../storage/scenario-library.js';
import { isScenarioName } from '../storage/scenario-name.js';
import type { StoredScenario } from '../storage/stored-scenario.js';
import { Refusal } from './refusal.js';
import type { ApiServices } from './services.js';

/** A name that a scenario may have. @throws Refusal 404: nothing can be stored under another. */
export function checkedName(name: string): string {
  if (!isScenarioName(name)) throw noScenario();
  return name;
}

/** The stored scenario. @throws Refusal 404 where there is none, 409 where it is broken. */
export async function storedScenarioOf(
  { library }: ApiServices,
  name: string,
): Promise<StoredScenario & { readonly check: Check }> {
  return goodScenario(await library.read(checkedName(name)));
}

/** @throws Refusal */
export function goodScenario(reading: LibraryReading): StoredScenario & { readonly check: Check } {
  if (reading.kind === 'absent') throw noScenario();
  if (reading.kind === 'good') return { ...reading.scenario, check: reading.check };
  const { problems, etag } = reading.scenario;
  throw new Refusal('broken-scenario', 'The stored scenario does not pass its checks.', {
    problems,
    ...(etag === undefined ? {} : { headers: { ETag: etag } }),
  });
}

export function noScenario(): Refusal {
  return new Refusal('not-found', 'No scenario is stored under this name.');
}
