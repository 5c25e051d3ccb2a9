import { mkdirSync, readdirSync, readFileSync, renameSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { SMALL_WORKS } from '../report/small-works.js';
import { json, type TestApi, testApi, WORKS_TEXT } from './test-api.js';

let api: TestApi;

beforeAll(async () => {
  api = await testApi();
});

afterAll(() => api.close());

const file = (name: string) => join(api.folder, name);
const titled = (title: string) => JSON.stringify({ ...SMALL_WORKS, title });
const create = (name: string, body = WORKS_TEXT) =>
  api.send('PUT', `/scenarios/${name}`, { body, headers: { 'If-None-Match': '*' } });
const etagOf = (response: Response) => response.headers.get('ETag') ?? '';

describe('a scenario', () => {
  test('is stored byte for byte, listed, read under its entity tag, and not sent twice', async () => {
    const text = `\n${JSON.stringify(SMALL_WORKS, undefined, 4)}\n`;
    const created = await create('byte-for-byte', text);
    expect(created.status).toBe(201);
    expect(created.headers.get('Location')).toBe('/scenarios/byte-for-byte');
    const read = await api.send('GET', '/scenarios/byte-for-byte');
    expect(await read.text()).toBe(text);
    expect(readFileSync(file('byte-for-byte.json'), 'utf8')).toBe(text);
    expect(etagOf(read)).toBe(etagOf(created));
    const again = await api.send('GET', '/scenarios/byte-for-byte', {
      headers: { 'If-None-Match': etagOf(read) },
    });
    expect(again.status).toBe(304);
    const { scenarios } = await json(api.send('GET', '/scenarios'));
    expect(scenarios).toContainEqual(
      expect.objectContaining({
        name: 'byte-for-byte',
        state: 'good',
        etag: etagOf(read),
        title: SMALL_WORKS.title,
      }),
    );
  });

  test('is written only by those who say which version they have seen, and have', async () => {
    const first = etagOf(await create('guarded', titled('first')));
    const put = (headers: Record<string, string>, title = 'second') =>
      api.send('PUT', '/scenarios/guarded', { body: titled(title), headers });
    expect((await put({})).status).toBe(428);
    expect((await put({ 'If-None-Match': '*' })).status).toBe(412);
    expect((await put({ 'If-Match': '"0"' })).status).toBe(412);
    expect((await put({ 'If-Match': `W/${first}` })).status).toBe(412);
    expect((await put({ 'If-Match': first.slice(1, -1) })).status).toBe(400);
    const second = await put({ 'If-Match': `"0", ${first}` });
    expect(second.status).toBe(200);
    expect((await put({ 'If-Match': first }, 'third')).status).toBe(412);
    const refused = await put({ 'If-Match': first }, 'third');
    expect(etagOf(refused)).toBe(etagOf(second));
    expect((await json(put({ 'If-Match': '*' }))).state).toBe('unchanged');
    expect((await api.send('DELETE', '/scenarios/guarded')).status).toBe(428);
    expect((await api.send('DELETE', '/scenarios/guarded', { headers: { 'If-Match': first } })).status).toBe(
      412,
    );
    const deleted = await api.send('DELETE', '/scenarios/guarded', {
      headers: { 'If-Match': etagOf(second) },
    });
    expect(deleted.status).toBe(204);
    expect((await api.send('GET', '/scenarios/guarded')).status).toBe(404);
    expect((await put({ 'If-Match': '*' })).status).toBe(412);
  });

  test('keeps the versions that were replaced and deleted', async () => {
    const first = etagOf(await create('kept', titled('first')));
    const second = etagOf(
      await api.send('PUT', '/scenarios/kept', { body: titled('second'), headers: { 'If-Match': first } }),
    );
    await api.send('DELETE', '/scenarios/kept', { headers: { 'If-Match': second } });
    const { versions } = await json(api.send('GET', '/scenarios/kept/versions'));
    expect(versions).toEqual([
      { version: 1, etag: first },
      { version: 2, etag: second },
    ]);
    const read = await api.send('GET', '/scenarios/kept/versions/1');
    expect((await json(read)).title).toBe('first');
    expect((await api.send('GET', '/scenarios/kept/versions/3')).status).toBe(404);
    expect((await api.send('GET', '/scenarios/kept/versions/..%2f1')).status).toBe(404);
  });

  test('with problems is refused with all of them by pointer, and nothing is written', async () => {
    const wrong = JSON.stringify({ ...SMALL_WORKS, title: 7, machines: [] });
    const response = await create('wrong', wrong);
    expect(response.status).toBe(422);
    const { type, problems } = await json(response);
    expect(type).toBe('urn:cutpoint:problem:invalid-scenario');
    const pointers = problems.map(({ pointer }: { pointer: string }) => pointer);
    expect(pointers).toContain('/title');
    expect(pointers).toContain('/machines');
    expect(readdirSync(api.folder)).not.toContain('wrong.json');
    const notJson = await create('wrong', '{ "format": ');
    expect(notJson.status).toBe(400);
  });

  test('that people edit by hand is picked up, listed as broken where it is, and never served as good', async () => {
    const good = etagOf(await create('by-hand'));
    writeFileSync(file('by-hand.json'), titled('by hand'));
    const picked = await api.send('GET', '/scenarios/by-hand');
    expect((await json(picked)).title).toBe('by hand');
    expect(
      (await api.send('PUT', '/scenarios/by-hand', { body: WORKS_TEXT, headers: { 'If-Match': good } }))
        .status,
    ).toBe(412);
    for (const broken of [
      '{"format":',
      '[]',
      JSON.stringify({ ...SMALL_WORKS, title: 7 }),
      Buffer.from([0x7b, 0xe9]),
    ]) {
      writeFileSync(file('by-hand.json'), broken);
      const { scenarios } = await json(api.send('GET', '/scenarios'));
      expect(scenarios).toContainEqual(expect.objectContaining({ name: 'by-hand', state: 'broken' }));
      const read = await api.send('GET', '/scenarios/by-hand');
      expect(read.status).toBe(409);
      expect((await json(read)).problems.length).toBeGreaterThan(0);
      expect((await api.send('POST', '/plan', { body: { scenario: 'by-hand' } })).status).toBe(409);
    }
    const repaired = await api.send('PUT', '/scenarios/by-hand', {
      body: WORKS_TEXT,
      headers: { 'If-Match': etagOf(await api.send('GET', '/scenarios/by-hand')) },
    });
    expect(repaired.status).toBe(200);
  });
});

describe('no name leaves the folder', () => {
  const names = [
    '..%2fworks',
    '%2e%2e%2fworks',
    '.history',
    'Works',
    'WORKS',
    'works.json',
    'works%00',
    'a%5cb',
    'con',
    'nul',
    'com1',
    'lpt9',
    'a'.repeat(41),
    'ä',
    'wo%C5%BFrks',
    '-a',
    '1a',
    'a_b',
    'a%20b',
    'constructor%00',
    '%E0%A4%A',
  ];

  test.each(names)('%s is not found, whoever asks for it, in whatever way', async (name) => {
    const before = readdirSync(api.folder).sort();
    for (const [method, headers] of [
      ['GET', {}],
      ['PUT', { 'If-None-Match': '*' }],
      ['DELETE', { 'If-Match': '*' }],
    ] as const) {
      const response = await api.send(method, `/scenarios/${name}`, {
        ...(method === 'PUT' ? { body: WORKS_TEXT } : {}),
        headers,
      });
      expect([404, 405]).toContain(response.status);
    }
    expect(readdirSync(api.folder).sort()).toEqual(before);
  });

  test('a name of an object is a name like others', async () => {
    expect((await api.send('GET', '/scenarios/constructor')).status).toBe(404);
    expect((await create('constructor')).status).toBe(201);
  });

  test('links and folders are neither read nor written', async () => {
    symlinkSync('/etc/hostname', file('linked.json'));
    symlinkSync(file('works.json'), file('inside.json'));
    mkdirSync(file('folder.json'));
    for (const name of ['linked', 'inside', 'folder']) {
      expect((await api.send('GET', `/scenarios/${name}`)).status).toBe(409);
      expect((await create(name)).status).toBe(409);
      expect((await api.send('DELETE', `/scenarios/${name}`, { headers: { 'If-Match': '*' } })).status).toBe(
        409,
      );
    }
    const { scenarios } = await json(api.send('GET', '/scenarios'));
    expect(scenarios).toContainEqual(expect.objectContaining({ name: 'linked', state: 'broken' }));
    expect(readFileSync(file('works.json'), 'utf8')).toBe(WORKS_TEXT);
  });
});

describe('ten writers on one scenario', () => {
  test('who read, change and write with the tag that they read lose no update', async () => {
    await create('counted', titled('0'));
    const addOne = async (): Promise<void> => {
      for (;;) {
        const read = await api.send('GET', '/scenarios/counted');
        const document = await json(read);
        const body = JSON.stringify({ ...document, title: String(Number(document.title) + 1) });
        const written = await api.send('PUT', '/scenarios/counted', {
          body,
          headers: { 'If-Match': etagOf(read) },
        });
        if (written.status === 200) return;
        expect(written.status).toBe(412);
      }
    };
    await Promise.all(Array.from({ length: 10 }, addOne));
    const { title } = await json(api.send('GET', '/scenarios/counted'));
    expect(title).toBe('10');
    const { versions } = await json(api.send('GET', '/scenarios/counted/versions'));
    expect(versions).toHaveLength(10);
  });

  test('of whom all create it: one does', async () => {
    const statuses = await Promise.all(
      Array.from({ length: 10 }, async (_, i) => (await create('raced', titled(`${i}`))).status),
    );
    expect(statuses.filter((status) => status === 201)).toHaveLength(1);
    expect(statuses.filter((status) => status === 412)).toHaveLength(9);
  });
});

describe('offers', () => {
  const offer = { ...SMALL_WORKS.contracts![0], id: 'new-mats', name: 'More mats' };
  const at = '/scenarios/works/offers';

  test('are created, read, replaced and deleted inside their scenario, each under its own tag', async () => {
    const created = await api.send('PUT', `${at}/new-mats`, {
      body: offer,
      headers: { 'If-None-Match': '*' },
    });
    expect(created.status).toBe(201);
    const other = { ...offer, id: 'other-mats' };
    await api.send('PUT', `${at}/other-mats`, { body: other, headers: { 'If-None-Match': '*' } });
    const read = await api.send('GET', `${at}/new-mats`);
    expect(await json(read)).toEqual(offer);
    expect(etagOf(read)).toBe(etagOf(created));
    const better = { ...offer, name: 'Still more mats' };
    const replace = () =>
      api.send('PUT', `${at}/new-mats`, { body: better, headers: { 'If-Match': etagOf(created) } });
    expect((await replace()).status).toBe(200);
    expect((await replace()).status).toBe(412);
    const { offers } = await json(api.send('GET', at));
    expect(offers.map(({ offer: each }: { offer: { id: string } }) => each.id)).toEqual([
      'new-mats',
      'other-mats',
    ]);
    const { offers: stored } = JSON.parse(readFileSync(file('works.json'), 'utf8'));
    expect(stored).toEqual([better, other]);
    expect((await api.send('DELETE', `${at}/new-mats`, { headers: { 'If-Match': '*' } })).status).toBe(204);
    expect((await api.send('DELETE', `${at}/new-mats`, { headers: { 'If-Match': '*' } })).status).toBe(404);
    expect((await api.send('GET', `${at}/new-mats`)).status).toBe(404);
  });

  test('that do not fit the scenario are refused', async () => {
    const foreign = { ...offer, materials: ['gold'] };
    const response = await api.send('PUT', `${at}/new-mats`, {
      body: foreign,
      headers: { 'If-None-Match': '*' },
    });
    expect(response.status).toBe(422);
    expect((await json(response)).problems[0].pointer).toContain('/offers/');
    const misnamed = await api.send('PUT', `${at}/another`, {
      body: offer,
      headers: { 'If-None-Match': '*' },
    });
    expect(misnamed.status).toBe(422);
  });

  test('that would make the scenario larger than it may be are refused, and nothing is written', async () => {
    const { mostBytes } = api.services.library.folder;
    const text = JSON.stringify({ ...SMALL_WORKS, note: '' });
    const large = JSON.stringify({ ...SMALL_WORKS, note: 'x'.repeat(mostBytes - text.length) });
    const created = await api.send('PUT', '/scenarios/large', {
      body: large,
      headers: { 'If-None-Match': '*' },
    });
    expect(created.status).toBe(201);
    const response = await api.send('PUT', '/scenarios/large/offers/new-mats', {
      body: offer,
      headers: { 'If-None-Match': '*' },
    });
    expect(response.status).toBe(413);
    expect((await api.send('GET', '/scenarios/large')).status).toBe(200);
  });

  test('ten people who each add one at a time all find theirs', async () => {
    const ids = Array.from({ length: 10 }, (_, i) => `added-${i}`);
    const statuses = await Promise.all(
      ids.map(async (id) => {
        const response = await api.send('PUT', `${at}/${id}`, {
          body: { ...offer, id },
          headers: { 'If-None-Match': '*' },
        });
        return response.status;
      }),
    );
    expect(statuses).toEqual(ids.map(() => 201));
    const { offers } = await json(api.send('GET', at));
    const found = offers.map(({ offer: each }: { offer: { id: string } }) => each.id);
    expect(found).toEqual(expect.arrayContaining(ids));
  });
});

test('a file that appears while it is created is not written over', async () => {
  writeFileSync(file('aside.tmp'), titled('by hand'));
  renameSync(file('aside.tmp'), file('appeared.json'));
  expect((await create('appeared')).status).toBe(412);
});
