import { expect, test } from 'vitest';
import { endlessLoops } from '../../src/plant/endless-loops.js';

const NONE = new Set<string>();

test('two materials that turn into each other and nothing else never leave', () => {
  const loop = [
    { input: 'a', outputs: ['b'] },
    { input: 'b', outputs: ['a'] },
  ];
  expect(endlessLoops(loop, NONE)).toEqual([['a', 'b']]);
  expect(endlessLoops(loop, new Set(['b']))).toEqual([]);
});

test('a loop that gives part of its mass away empties', () => {
  const loop = [
    { input: 'a', outputs: ['b', 'product'] },
    { input: 'b', outputs: ['a'] },
  ];
  expect(endlessLoops(loop, new Set(['product']))).toEqual([]);
});

test('a step that gives back its own input whole never ends', () => {
  expect(endlessLoops([{ input: 'a', outputs: ['a'] }], NONE)).toEqual([['a']]);
});

test('another step out of the loop empties it', () => {
  const loop = [
    { input: 'a', outputs: ['a'] },
    { input: 'a', outputs: ['product'] },
  ];
  expect(endlessLoops(loop, new Set(['product']))).toEqual([]);
});

test('what feeds an endless loop is not part of it', () => {
  const chain = [
    { input: 'tires', outputs: ['product', 'a'] },
    { input: 'a', outputs: ['b'] },
    { input: 'b', outputs: ['a'] },
  ];
  expect(endlessLoops(chain, new Set(['product']))).toEqual([['a', 'b']]);
});

test('a product of the loop that is itself in an endless loop is no way out', () => {
  const two = [
    { input: 'a', outputs: ['a', 'b'] },
    { input: 'b', outputs: ['b'] },
  ];
  expect(endlessLoops(two, NONE)).toEqual([['b']]);
});

test('a dead end is not a loop', () => {
  expect(endlessLoops([{ input: 'a', outputs: ['b'] }], NONE)).toEqual([]);
});
