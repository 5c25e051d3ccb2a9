import { expect, it } from 'vitest';
import { sendMutated } from '../web/mutated-documents.js';
import { testApi } from '../web/test-api.js';
import { printTable } from './measure.js';

const COUNT = 10_000;
const SLICE = 1000;

const slices = Array.from({ length: COUNT / SLICE }, (_, i) => [i * SLICE, (i + 1) * SLICE - 1]);

/** In slices, so that one of them can be sent alone. */
it.each(slices)('answers or refuses the mutated documents %i to %i', async (first, last) => {
  const api = await testApi();
  const started = performance.now();
  const statuses = await sendMutated(api, last - first + 1, first);
  const seconds = (performance.now() - started) / 1000;
  expect((await api.send('GET', '/health')).status).toBe(200);
  api.close();
  const rows = [...statuses].sort(([a], [b]) => a - b).map(([status, count]) => ({ status, answers: count }));
  printTable(`Mutated documents ${first} to ${last} in ${seconds.toFixed(0)} s`, rows);
});
