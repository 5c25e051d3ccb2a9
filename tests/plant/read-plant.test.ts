import { describe, expect, test } from 'vitest';
import { readPlant, readPlantDocument } from '../../src/plant/read-plant.js';
import { EXAMPLE } from './example-scenario.js';

// biome-ignore lint/suspicious/noExplicitAny: a document under test may hold anything anywhere
type Json = Record<string, any>;

/** The example with a change, read as a document. */
function reading(change: (document: Json) => void) {
  const document = structuredClone(EXAMPLE) as Json;
  change(document);
  return readPlantDocument(document);
}

function problems(change: (document: Json) => void) {
  const result = reading(change);
  return result.ok ? [] : result.problems.map(({ pointer, code }) => [pointer, code]);
}

const CLEANING = '/steps/1/yields/separation';
const MILLING = '/steps/2/yields/sizing';

function separation(document: Json): Json {
  return document.steps[1].yields.separation;
}

function sizing(document: Json): Json {
  return document.steps[2].yields.sizing;
}

test('the example reads, from text and as a document, without warnings', () => {
  const fromText = readPlant(JSON.stringify(EXAMPLE));
  expect(fromText).toMatchObject({ ok: true, warnings: [] });
  expect(readPlantDocument(EXAMPLE)).toEqual(fromText);
});

describe('separations are refused where', () => {
  test('a recovery is outside 0 to 1', () => {
    expect(problems((d) => (separation(d).to.wire.steel = 1.2))).toContainEqual([
      `${CLEANING}/to/wire/steel`,
      'out of range',
    ]);
    expect(problems((d) => (separation(d).to.wire.steel = -0.1))).toContainEqual([
      `${CLEANING}/to/wire/steel`,
      'out of range',
    ]);
  });

  test('the recoveries of a constituent add up to more than 1', () => {
    expect(problems((d) => (separation(d).to.wire.rubber = 0.04))).toEqual([[`${CLEANING}/to`, 'yields']]);
  });

  test('a constituent is not in the input', () => {
    expect(problems((d) => (separation(d).to.wire.copper = 0.5))).toEqual([
      [`${CLEANING}/to/wire/copper`, 'assay'],
    ]);
  });

  test('the constituents of the input do not add up to 1', () => {
    expect(problems((d) => (d.materials[0].assay.rubber = 0.6))).toEqual([[CLEANING, 'assay']]);
  });

  test('the input has no assay; what hangs on it is not told again', () => {
    expect(problems((d) => delete d.materials[0].assay)).toEqual([[CLEANING, 'assay']]);
  });

  test('the remainder has recoveries too', () => {
    expect(problems((d) => (separation(d).to.dust = { dirt: 0.5 }))).toEqual([
      [`${CLEANING}/remainder`, 'yields'],
    ]);
  });

  test('an assay is above 1', () => {
    expect(problems((d) => (d.materials[0].assay.steel = 1.5))).toEqual([
      ['/materials/0/assay/steel', 'out of range'],
    ]);
  });
});

describe('sizings are refused where', () => {
  test('decks do not go from coarse to fine', () => {
    expect(problems((d) => sizing(d).decks.reverse())).toContainEqual([
      `${MILLING}/decks/1/opening`,
      'yields',
    ]);
    expect(problems((d) => (sizing(d).decks[1].opening = 4))).toEqual([
      [`${MILLING}/decks/1/opening`, 'yields'],
    ]);
  });

  test('a sieve is not known, and the nearest is named', () => {
    const result = reading((d) => (sizing(d).decks[1].opening = 'No. 11'));
    expect(result.ok ? [] : result.problems).toMatchObject([
      {
        pointer: `${MILLING}/decks/1/opening`,
        code: 'unknown reference',
        remedy: expect.stringContaining('No. 10'),
      },
    ]);
  });

  test('a later deck returns', () => {
    expect(problems((d) => (sizing(d).decks[1].over = 'return'))).toContainEqual([
      `${MILLING}/decks/1/over`,
      'yields',
    ]);
  });

  test('nothing is fine enough for the first deck, whose over returns', () => {
    const returning = (d63: number) =>
      problems((d) => {
        sizing(d).decks[0].over = 'return';
        sizing(d).d63 = d63;
      });
    expect(returning(1e12)).toContainEqual([`${MILLING}/d63`, 'yields']);
    expect(returning(20)).not.toContainEqual([`${MILLING}/d63`, 'yields']);
  });

  test('losses leave nothing', () => {
    expect(problems((d) => (sizing(d).losses['mill-dust'] = 1))).toEqual([[`${MILLING}/losses`, 'yields']]);
  });

  test('the oversize returns both by the circuit and by the first deck', () => {
    const twice = (d: Json) => {
      delete d.steps[2].throughput;
      d.steps[2].circuit = { passThroughput: 2, undersize: 0.5 };
    };
    expect(problems(twice)).toEqual([['/steps/2/circuit', 'circuit']]);
  });
});

describe('also refused:', () => {
  test('a measure of a contract that its material neither states nor derives', () => {
    expect(problems((d) => (d.contracts[0].quality[0].measure = 'copper'))).toEqual([
      ['/contracts/0/quality/0/measure', 'contract'],
    ]);
    expect(problems((d) => (d.contracts[0].quality = [{ measure: 'heatingValue', min: 30 }]))).toEqual([
      ['/contracts/0/quality/0/measure', 'contract'],
    ]);
  });

  test('the same in an offer', () => {
    expect(
      problems((d) => {
        d.offers = [structuredClone(d.contracts[0])];
        d.offers[0].id = 'new';
        d.offers[0].quality[0].measure = 'copper';
      }),
    ).toEqual([['/offers/0/quality/0/measure', 'contract']]);
  });

  test('a derivation that runs in a circle, with both ways out', () => {
    const result = reading((d) => {
      d.materials.push({ id: 'clean-wire', form: 'steel' });
      d.outlets.push({ id: 'mill-scrap', material: 'clean-wire', price: 150 });
      d.steps.push({
        id: 'again',
        machine: 'cleaner',
        input: 'wire',
        throughput: 2,
        yields: { separation: { to: { 'clean-wire': { steel: 0.98 } }, remainder: 'shred' } },
      });
    });
    expect(result.ok ? [] : result.problems).toMatchObject([
      {
        code: 'assay',
        message: expect.stringContaining('circle'),
        remedy: expect.stringMatching(/State.*material of its own/),
      },
    ]);
  });

  test('one material made with two assays, with both ways out', () => {
    const result = reading((d) => (separation(d).remainder = 'coarse'));
    expect(result.ok ? [] : result.problems).toContainEqual(
      expect.objectContaining({
        pointer: '/materials/6',
        code: 'assay',
        remedy: expect.stringMatching(/two materials.*state its assay/),
      }),
    );
  });

  test('a loop that can never empty', () => {
    const loop = (d: Json) => {
      d.materials.push({ id: 'a', form: 'other' }, { id: 'b', form: 'other' });
      for (const [input, output] of [
        ['a', 'b'],
        ['b', 'a'],
      ]) {
        d.steps.push({
          id: `${input}-step`,
          machine: 'mill',
          input,
          throughput: 1,
          yields: { shares: { [output!]: 1 } },
        });
      }
    };
    expect(problems(loop)).toEqual([['/steps/3/yields', 'circuit']]);
    expect(
      problems((d) => {
        loop(d);
        d.disposals[0].materials.push('b');
      }),
    ).toEqual([]);
  });

  test('maintenance of more hours than there are', () => {
    expect(problems((d) => (d.machines[0].maintenanceHours = [12, 12, 400]))).toEqual([
      ['/machines/0/maintenanceHours', 'hours'],
    ]);
  });

  test('an elasticity with a fee that is not above 0', () => {
    expect(problems((d) => (d.feeds[0].tippingFee = -5))).toEqual([['/feeds/0/tippingFee', 'out of range']]);
  });

  test('an elasticity so steep that its power is no number', () => {
    const response = (elasticity: number) => problems((d) => (d.feeds[0].response = { elasticity, at: 5 }));
    expect(response(-11)).toEqual([['/feeds/0/response/elasticity', 'out of range']]);
    expect(response(-10)).toEqual([]);
  });

  test('a shortfall charged by energy where the materials of the contract differ in it', () => {
    const charged = (d: Json) => {
      d.materials[2].heatingValue = 34;
      d.contracts[0].materials = ['wire-free', 'shred'];
      d.contracts[0].shortfall = { charge: { amount: 1, per: 'GJ' } };
    };
    expect(problems(charged)).toEqual([['/contracts/0/shortfall/charge', 'unit needs a figure']]);
    expect(
      problems((d) => {
        charged(d);
        d.materials[2].heatingValue = 30;
      }),
    ).toEqual([]);
  });

  test('a published figure that is not in the table, the nearest named', () => {
    const result = reading((d) => (d.materials[0].assay = { from: 'car-tires-2012' }));
    expect(result.ok ? [] : result.problems).toEqual([
      expect.objectContaining({
        pointer: '/materials/0/assay/from',
        code: 'unknown reference',
        remedy: expect.stringMatching(/car-tires-20/),
      }),
    ]);
  });
});

test('everything that is wrong is told at once, with mistakes of shape elsewhere', () => {
  const found = problems((d) => {
    d.title = 7;
    d.outlets[0].colour = 'red';
    separation(d).to.wire.rubber = 0.04;
    sizing(d).decks[1].opening = 5;
    d.machines[0].maintenanceHours = 1000;
    d.contracts[0].quality[0].measure = 'copper';
  });
  const pointers = found.map(([pointer]) => pointer);
  expect(pointers).toEqual(
    expect.arrayContaining([
      '/title',
      '/outlets/0/colour',
      `${CLEANING}/to`,
      `${MILLING}/decks/1/opening`,
      '/machines/0/maintenanceHours',
      '/contracts/0/quality/0/measure',
    ]),
  );
  expect(pointers).toHaveLength(6);
});

describe('warnings', () => {
  test('a stated assay that is better than the derived one is told with both figures and the mass between', () => {
    const result = reading((d) => (d.materials[2].assay = { rubber: 0.9995, steel: 0.0005 }));
    expect(result.ok && result.warnings).toEqual([
      {
        pointer: '/materials/2/assay',
        code: 'assay',
        message: expect.stringMatching(/99\.95 %.*99\.78 %.*0\.1704 %/),
      },
      {
        pointer: '/materials/2/assay',
        code: 'assay',
        message: expect.stringMatching(/0\.05 %.*0\.2204 %.*0\.1704 %/),
      },
    ]);
  });

  test('what only an offer takes is told: before one is signed nothing of it is made', () => {
    const result = reading((d) => {
      const steel = d.outlets.find(({ material }: { material: string }) => material === 'wire');
      d.outlets = d.outlets.filter((outlet: unknown) => outlet !== steel);
      d.offers = [
        {
          id: 'melt',
          buyer: 'Melt shop',
          materials: ['wire'],
          from: '2027-03-01',
          to: '2027-12-31',
          price: 100,
        },
      ];
    });
    expect(result.ok && result.warnings.map(({ code, message }) => [code, message])).toEqual([
      ['only offered', expect.stringContaining("'wire'")],
    ]);
  });

  test('a stated assay within 0.001 of the derived one is not', () => {
    const result = reading((d) => (d.materials[2].assay = { rubber: 0.9975, steel: 0.0025 }));
    expect(result.ok && result.warnings).toEqual([]);
  });

  test('a circulating load above 4 is seldom practical (common practice, no source)', () => {
    const warned = (undersize: number) => {
      const result = reading((d) => (d.steps[0].circuit = { passThroughput: 10, undersize }));
      return result.ok ? result.warnings.map(({ pointer, code }) => [pointer, code]) : result.problems;
    };
    expect(warned(0.201)).toEqual([]);
    expect(warned(0.199)).toEqual([['/steps/0/circuit', 'circuit']]);
  });
});
