import type { Markup } from '../../report/html/markup.js';
import type { ApiServices } from '../api/services.js';
import type { PageServices } from './ask.js';
import { faultNote } from './failure-page.js';
import { streamedResponse } from './markup-response.js';
import { type Shell, shellHead, shellRest } from './shell.js';

/**
 * A page whose head is sent at once and its content when it is worked out. Who leaves the page, or asks for another
 * in its place, ends the work on it.
 */
export function streamedPage(
  services: ApiServices,
  shell: Shell,
  content: (services: PageServices) => Promise<Markup>,
): Response {
  return streamedResponse(shellHead(shell), async (signal) =>
    shellRest(await content({ ...services, signal }).catch(faultNote)),
  );
}
