import { afterAll, beforeAll, expect, it } from 'vitest';
import { builtProgram } from '../../built-program.js';
import { type TestApi, testApi } from '../test-api.js';

let api: TestApi;

beforeAll(async () => {
  await builtProgram();
  api = await testApi({ access: { kind: 'tokens', full: 'all-of-it', read: 'only-reading' } });
}, 180_000);

afterAll(() => api?.close());

const signIn = (token: string) =>
  api.app.request('/sign-in', {
    method: 'POST',
    headers: { 'Content-Type': 'application/x-www-form-urlencoded' },
    body: new URLSearchParams({ token }).toString(),
  });

it('without a token every page leads to where one can sign in, and shows nothing', async () => {
  for (const path of ['/', '/scenarios/works/plan', '/scenarios/works/plant', '/scenarios/works/plan.xlsx']) {
    const response = await api.app.request(path);
    expect([response.status, response.headers.get('Location')]).toEqual([303, '/sign-in']);
    expect(await response.text()).toBe('');
  }
});

it('a wrong token is refused and keeps nothing', async () => {
  const response = await signIn('a-guess');
  expect(response.status).toBe(403);
  expect(response.headers.get('Set-Cookie')).toBeNull();
});

it('a token opens the pages, and its permission is that of the API', async () => {
  const response = await signIn('only-reading');
  const cookie = response.headers.get('Set-Cookie') ?? '';
  expect(cookie).toMatch(/HttpOnly; SameSite=Strict/);
  const headers = { Cookie: cookie.split(';')[0] };
  expect((await api.app.request('/', { headers })).status).toBe(200);
  const read = await api.app.request('/scenarios/works', { headers });
  expect(read.status).toBe(200);
  const written = await api.app.request('/scenarios/works', {
    method: 'DELETE',
    headers: { ...headers, 'If-Match': '*' },
  });
  expect(written.status).toBe(403);
});

it('a cookie does not let pages of another origin ask', async () => {
  const headers = {
    Cookie: 'cutpoint-token=all-of-it',
    Origin: 'https://elsewhere.example',
    'If-Match': '*',
  };
  const response = await api.app.request('/scenarios/works', { method: 'DELETE', headers });
  expect(response.status).toBe(403);
});
