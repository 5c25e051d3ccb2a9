import { expect, test } from 'vitest';
import { sendMutated } from './mutated-documents.js';
import { testApi, WORKS_TEXT } from './test-api.js';

/** The full 10,000 are sent by `npm run bench`. */
const COUNT = 400;

test(`${COUNT} mutated documents are answered, or refused with problem details; none hangs, and the server still answers`, async () => {
  const api = await testApi();
  const statuses = await sendMutated(api, COUNT);
  expect((await api.send('POST', '/plan', { body: { scenario: JSON.parse(WORKS_TEXT) } })).status).toBe(200);
  // Neither everything refused nor everything taken: the mutations reach both sides.
  for (const status of [200, 400, 412, 422]) expect(statuses.get(status)).toBeGreaterThan(0);
  api.close();
});
