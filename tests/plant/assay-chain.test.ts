import { describe, expect, test } from 'vitest';
import { assayChain, type ChainStep } from '../../src/plant/assay-chain.js';

const RUBBER_STEEL = { rubber: 0.8, steel: 0.2 };

function cleaning(id: string, input: string, to: string, remainder: string, rubber = 0.9): ChainStep {
  return { id, input, yields: { separation: { to: { [to]: { rubber, steel: 0.05 } }, remainder } } };
}

function whole(id: string, input: string, output: string): ChainStep {
  return { id, input, yields: { shares: { [output]: 1 } } };
}

function material(id: string, assay?: Record<string, number>) {
  return assay === undefined ? { id } : { id, assay };
}

describe('assays down the chain', () => {
  test('a step with one output leaves the assay as it is', () => {
    // "Similar to that of whole tyres": Aliapur wiki, page on shred.
    const { assays, findings } = assayChain(
      [material('tires', RUBBER_STEEL), material('shred')],
      [whole('shredding', 'tires', 'shred')],
    );
    expect(assays.get('shred')).toEqual(RUBBER_STEEL);
    expect(findings).toEqual([]);
  });

  test('two separations in a row, by hand', () => {
    const { assays, outputs } = assayChain(
      [
        material('tires', RUBBER_STEEL),
        material('clean'),
        material('wire'),
        material('cleaner'),
        material('rest'),
      ],
      [cleaning('second', 'clean', 'cleaner', 'rest'), cleaning('first', 'tires', 'clean', 'wire')],
    );
    // clean: 0.72 rubber + 0.01 steel = 0.73; cleaner: 0.648 + 0.0005 = 0.6485 of the tires.
    expect(assays.get('clean')!.steel).toBeCloseTo(0.01 / 0.73, 14);
    expect(assays.get('cleaner')!.steel).toBeCloseTo(0.0005 / 0.6485, 14);
    const share = outputs.get('second')!.find((output) => output.material === 'cleaner')!.share;
    expect(share).toBeCloseTo(0.6485 / 0.73, 14);
  });

  test('several stated shares say nothing about what they are made of', () => {
    const { assays } = assayChain(
      [material('tires', RUBBER_STEEL), material('chip'), material('wire')],
      [{ id: 'chipping', input: 'tires', yields: { shares: { chip: 0.9, wire: 0.1 } } }],
    );
    expect(assays.get('chip')).toBeUndefined();
  });

  test('sizing leaves the assay of its products as it is; a loss made elsewhere too keeps the other assay', () => {
    const sizing: ChainStep = {
      id: 'milling',
      input: 'clean',
      yields: {
        sizing: {
          d63: 2,
          n: 1.3,
          decks: [{ opening: 2, over: 'coarse' }],
          under: 'fine',
          losses: { wire: 0.02 },
        },
      },
    };
    const { assays, findings } = assayChain(
      ['tires', 'clean', 'wire', 'coarse', 'fine'].map((id) =>
        material(id, id === 'tires' ? RUBBER_STEEL : undefined),
      ),
      [cleaning('first', 'tires', 'clean', 'wire'), sizing],
    );
    expect(assays.get('coarse')).toEqual(assays.get('clean'));
    expect(assays.get('wire')!.steel).toBeCloseTo(0.19 / 0.27, 14);
    expect(findings).toEqual([
      { kind: 'assumed', material: 'wire', step: 'milling', by: 'loss', from: 'first' },
    ]);
  });
});

describe('one assay a material', () => {
  const two = (second: number) =>
    assayChain(
      [
        material('cars', RUBBER_STEEL),
        material('trucks', { rubber: 1 - second, steel: second }),
        material('shred'),
      ],
      [whole('cars-first', 'cars', 'shred'), whole('trucks-first', 'trucks', 'shred')],
    ).findings;

  test('two steps that make it with assays 0.001 apart agree, a little more and they do not', () => {
    expect(two(0.2009)).toEqual([]);
    expect(two(0.2011)).toMatchObject([
      {
        kind: 'differing',
        material: 'shred',
        steps: [{ step: 'cars-first' }, { step: 'trucks-first' }],
      },
    ]);
  });

  test('two empty assays agree', () => {
    const { findings } = assayChain(
      [material('cars', {}), material('trucks', {}), material('shred')],
      [whole('cars-first', 'cars', 'shred'), whole('trucks-first', 'trucks', 'shred')],
    );
    expect(findings).toEqual([]);
  });

  test('a stated assay ends the quarrel, and is compared with both', () => {
    const { findings, assays } = assayChain(
      [
        material('cars', RUBBER_STEEL),
        material('trucks', { rubber: 0.7, steel: 0.3 }),
        material('shred', { steel: 0.25 }),
      ],
      [whole('cars-first', 'cars', 'shred'), whole('trucks-first', 'trucks', 'shred')],
    );
    expect(assays.get('shred')).toEqual({ steel: 0.25 });
    expect(findings.map((finding) => finding.kind)).toEqual(['stated differs', 'stated differs']);
    expect(findings).toContainEqual({
      kind: 'stated differs',
      material: 'shred',
      constituent: 'steel',
      stated: 0.25,
      made: { step: 'cars-first', share: 0.2 },
    });
  });

  test('a separation that gives back its own input runs in a circle; a stated assay breaks it', () => {
    const steps = [
      cleaning('clean', 'shred', 'clean', 'wire'),
      cleaning('again', 'wire', 'shred', 'steel'),
      whole('shredding', 'tires', 'shred'),
    ];
    const ids = ['tires', 'shred', 'clean', 'wire', 'steel'];
    const without = assayChain(
      ids.map((id) => material(id, id === 'tires' ? RUBBER_STEEL : undefined)),
      steps,
    );
    expect(without.findings.filter(({ kind }) => kind === 'circle')).toHaveLength(1);
    expect(without.findings.some(({ kind }) => kind === 'no assay')).toBe(false);
    const stated = assayChain(
      ids.map((id) => material(id, id === 'tires' || id === 'shred' ? RUBBER_STEEL : undefined)),
      steps,
    );
    expect(stated.findings.filter(({ kind }) => kind === 'circle')).toEqual([]);
    expect(stated.assays.get('steel')).toBeDefined();
  });

  test('sizing a material into itself and something finer is no circle', () => {
    const remill: ChainStep = {
      id: 'remill',
      input: 'coarse',
      yields: { sizing: { d63: 2, n: 1.3, decks: [{ opening: 2, over: 'coarse' }], under: 'fine' } },
    };
    const { findings, assays } = assayChain(
      [material('tires', RUBBER_STEEL), material('coarse'), material('fine')],
      [whole('first', 'tires', 'coarse'), remill],
    );
    expect(findings).toEqual([]);
    expect(assays.get('fine')).toEqual(RUBBER_STEEL);
  });

  test('a separation needs an input whose constituents add up to 1, and says so once', () => {
    const steps = [
      cleaning('first', 'tires', 'clean', 'wire'),
      cleaning('second', 'clean', 'cleaner', 'rest'),
    ];
    const ids = ['tires', 'clean', 'wire', 'cleaner', 'rest'];
    expect(
      assayChain(
        ids.map((id) => material(id)),
        steps,
      ).findings,
    ).toEqual([{ kind: 'no assay', step: 'first', input: 'tires' }]);
    const open = ids.map((id) => material(id, id === 'tires' ? { rubber: 0.8, steel: 0.1 } : undefined));
    expect(assayChain(open, steps).findings).toEqual([
      { kind: 'open assay', step: 'first', input: 'tires', sum: 0.9 },
    ]);
  });
});
