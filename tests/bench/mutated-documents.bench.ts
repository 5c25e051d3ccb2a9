import { it } from 'vitest';
import { sendMutated } from '../web/mutated-documents.js';
import { testApi } from '../web/test-api.js';
import { printTable } from './measure.js';

const COUNT = 10_000;

it(`answers or refuses ${COUNT} mutated documents`, async () => {
  const api = await testApi();
  const started = performance.now();
  const statuses = await sendMutated(api, COUNT);
  const seconds = (performance.now() - started) / 1000;
  api.close();
  const rows = [...statuses].sort(([a], [b]) => a - b).map(([status, count]) => ({ status, answers: count }));
  printTable(`${COUNT} mutated documents in ${seconds.toFixed(0)} s`, rows);
});
