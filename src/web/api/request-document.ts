import type { QuestionRunner } from '../../host/question-runner.js';
import { readJson } from '../../scenario/read-json.js';
import { Refusal } from './refusal.js';
import type { ApiContext } from './route.js';

/** Characters that are read at once; longer texts are read in a thread, so that nobody waits for them. */
const READ_AT_ONCE = 4000;

/**
 * The text of a request's body; its size was limited before.
 *
 * @throws Refusal 415 for another form than plain JSON, 400 where it is not UTF-8.
 */
export async function requestText(context: ApiContext): Promise<string> {
  const encoding = context.req.header('Content-Encoding')?.trim().toLowerCase() ?? 'identity';
  if (encoding !== 'identity') {
    const headers = { 'Accept-Encoding': 'identity' };
    throw new Refusal('unsupported-media-type', 'Send the body as it is, not compressed.', { headers });
  }
  const contentType = context.req.header('Content-Type') ?? '';
  if (!/^application\/json\s*(;\s*charset\s*=\s*"?utf-8"?\s*)?$/i.test(contentType.trim())) {
    const headers = { Accept: 'application/json' };
    throw new Refusal('unsupported-media-type', 'Send the body as application/json in UTF-8.', { headers });
  }
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(await context.req.arrayBuffer());
  } catch (error) {
    if (error instanceof Refusal) throw error;
    throw new Refusal('malformed', 'The body is not UTF-8 text, or did not arrive whole.');
  }
}

/**
 * The JSON document of a request's body.
 *
 * @throws Refusal as requestText, and 400 for text that is not JSON or has keys that stand twice.
 */
export async function requestDocument(context: ApiContext, runner: QuestionRunner): Promise<unknown> {
  const text = await requestText(context);
  const reading = text.length <= READ_AT_ONCE ? readJson(text) : await runner.read(text);
  if (!reading.ok || reading.problems.length > 0) {
    throw new Refusal('malformed', 'The body is not JSON as it should be.', { problems: reading.problems });
  }
  return reading.document;
}
