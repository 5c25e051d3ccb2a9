import { describe, expect, test } from 'vitest';
import { toldAfter, wrongAfter } from '../edited.js';

describe('an id', () => {
  test.each([
    ['/operation/windows/2', 'day'],
    ['/materials/10', 'dust'],
    ['/feeds/1', 'retailers'],
    ['/disposals/1', 'landfill'],
  ])('that stands twice in a list is told at the second: %s', (entry, id) => {
    const copy = { id, materials: ['dust'], charge: 1 };
    const values = entry === '/disposals/1' ? { [entry]: copy } : { [`${entry}/id`]: id };
    expect(wrongAfter(values)).toContain(`${entry}/id: duplicate id`);
  });

  test('of a misshapen entry counts', () => {
    expect(wrongAfter({ '/disposals/1': { id: 'landfill' } })).toEqual([
      '/disposals/1/id: duplicate id',
      '/disposals/1/charge: missing',
      '/disposals/1/materials: missing',
    ]);
  });

  test('may stand once in each of two lists', () => {
    expect(wrongAfter({ '/steps/4/id': 'mill', '/stores/0/id': 'mill' })).toEqual([]);
  });

  test('of an offer may not be that of a contract', () => {
    expect(wrongAfter({ '/offers/0/id': 'kiln' })).toEqual(['/offers/0/id: duplicate id']);
    expect(toldAfter({ '/offers/0/id': 'kiln' }).remedy).toBe(
      'Give the offer another id: an offer may become a contract.',
    );
  });

  test('of a material may not be the word for what a screen sends back', () => {
    expect(
      wrongAfter({
        '/materials/11': { id: 'return', form: 'other', stock: {} },
      }),
    ).toEqual(['/materials/11/id: reserved']);
  });
});

describe('a list of names', () => {
  test.each([
    ['/operation/closed/1', '2027-01-01'],
    ['/operation/windows/2/days/1', 'sat'],
    ['/stores/0/materials/2', 'car-tires'],
    ['/contracts/0/materials/2', 'chip'],
    ['/disposals/0/materials/3', 'dust'],
  ])('names a thing once: %s', (pointer, value) => {
    expect(wrongAfter({ [pointer]: value })).toEqual([`${pointer}: conflict`]);
  });
});
