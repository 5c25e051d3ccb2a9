import { describe, expect, test } from 'vitest';
import { DELETED, toldAfter, wrongAfter } from '../edited.js';

describe('a step', () => {
  test('has a throughput or a circuit', () => {
    expect(wrongAfter({ '/steps/1/throughput': DELETED })).toEqual(['/steps/1: missing']);
    expect(wrongAfter({ '/steps/0/throughput': 4 })).toEqual(['/steps/0: circuit']);
    expect(wrongAfter({ '/steps/0/circuit': DELETED, '/steps/0/throughput': 4 })).toEqual([]);
    expect(wrongAfter({ '/steps/0/circuit/undersize': 2 })).toEqual([
      '/steps/0/circuit/undersize: out of range',
    ]);
  });

  test('has shares that add up to 1, to 1e-9', () => {
    expect(wrongAfter({ '/steps/4/yields/shares': { powder: 0.98 } })).toEqual([
      '/steps/4/yields/shares: yields',
    ]);
    expect(wrongAfter({ '/steps/4/yields/shares': { powder: 0.98, dust: 0.02 + 5e-10 } })).toEqual([]);
    expect(wrongAfter({ '/steps/4/yields/shares': { powder: 0.98, dust: 0.02 + 2e-9 } })).toEqual([
      '/steps/4/yields/shares: yields',
    ]);
    expect(wrongAfter({ '/steps/4/yields/shares': {} })).toContain('/steps/4/yields/shares: yields');
  });

  test('whose shares do not close is told the difference', () => {
    expect(toldAfter({ '/steps/4/yields/shares/powder': 0.96 })).toEqual({
      message: "steps[4] 'mill-powder', yields.shares: the yields add up to 0.98, not 1.",
      remedy: 'Add the missing 0.02: what is lost to dust or moisture is a material too.',
    });
    expect(toldAfter({ '/steps/4/yields/shares/powder': 1 }).remedy).toBe('Take off the 0.02 too many.');
  });

  test('does not make its own input', () => {
    expect(wrongAfter({ '/steps/4/yields/shares': { powder: 0.98, fine: 0.02 } })).toEqual([
      '/steps/4/yields/shares/fine: circuit',
    ]);
    expect(wrongAfter({ '/steps/2/yields/separation/remainder': 'shred' })).toEqual([
      '/steps/2/yields/separation/remainder: circuit',
    ]);
    expect(wrongAfter({ '/steps/3/yields/sizing/decks/0/over': 'wire-free' })).toEqual([
      '/steps/3/yields/sizing/decks/0/over: circuit',
    ]);
  });
});
