import { describe, expect, test } from 'vitest';
import { derivePlant } from '../../src/plant/derive-plant.js';
import type { Plant } from '../../src/plant/plant.js';
import type { Contract, Feed, Outlet, Scenario } from '../../src/scenario/schema/scenario.js';
import { EXAMPLE } from './example-scenario.js';

const PLANT = derivePlant(EXAMPLE);

function entry<T extends { readonly id: string }>(list: readonly T[], id: string): T {
  return list.find((candidate) => candidate.id === id)!;
}

function withContract(
  change: Partial<Contract>,
  scenario: Partial<Scenario> = {},
): Plant['contracts'][number] {
  const contracts = [{ ...EXAMPLE.contracts![0]!, ...change }];
  return derivePlant({ ...EXAMPLE, ...scenario, contracts }).contracts[0]!;
}

function withFeed(change: Partial<Feed>): Plant['feeds'][number] {
  return derivePlant({ ...EXAMPLE, feeds: [{ ...EXAMPLE.feeds[0]!, ...change }] }).feeds[0]!;
}

function withOutlet(change: Partial<Outlet>): Plant['outlets'][number] {
  return derivePlant({ ...EXAMPLE, outlets: [{ id: 'one', material: 'coarse', ...change }] }).outlets[0]!;
}

test('lists are in the order of ids and names default to ids', () => {
  for (const list of [PLANT.windows, PLANT.materials, PLANT.machines, PLANT.steps, PLANT.outlets]) {
    const ids = list.map(({ id }) => id);
    expect(ids).toEqual([...ids].sort());
  }
  expect(PLANT.machines.map(({ name }) => name)).toEqual(['cleaner', 'mill', 'shredder']);
});

test('the order of the document changes nothing', () => {
  const turned = {
    ...EXAMPLE,
    materials: EXAMPLE.materials.toReversed(),
    machines: EXAMPLE.machines.toReversed(),
    steps: EXAMPLE.steps.toReversed(),
    outlets: EXAMPLE.outlets!.toReversed(),
    operation: { ...EXAMPLE.operation, windows: EXAMPLE.operation.windows.toReversed() },
  };
  expect(derivePlant(turned)).toEqual(PLANT);
});

describe('series', () => {
  test('one value, one a month, or from a month on', () => {
    const committed = (series: Feed['committed']) => withFeed({ committed: series }).committed;
    expect(committed(7)).toEqual([7, 7, 7]);
    expect(committed([1, 2, 3])).toEqual([1, 2, 3]);
    expect(committed({ from: '2026-11', values: [1, 2, 3, 4, 5, 6] })).toEqual([3, 4, 5]);
  });

  test('a series that does not cover the horizon is refused', () => {
    expect(() => withFeed({ committed: { from: '2027-02', values: [1, 2, 3] } })).toThrow(RangeError);
    expect(() => withFeed({ committed: [1, 2] })).toThrow(RangeError);
  });
});

describe('hours', () => {
  test('of windows: days times length, January 2027 with its first working day closed', () => {
    expect(entry(PLANT.windows, 'day')).toMatchObject({
      length: 8,
      days: [20, 20, 23],
      hours: [160, 160, 184],
    });
    expect(entry(PLANT.windows, 'night')).toMatchObject({ length: 8, days: [20, 20, 23] });
  });

  test('of machines: hours · count · availability, less maintenance in proportion to the hours', () => {
    // Shredder: 160·0.85 − 12·160/320 = 130; mill: 160·2·0.9 = 288.
    expect(entry(PLANT.machines, 'shredder').available).toEqual([
      [130, 130, 184 * 0.85 - 6],
      [130, 130, 184 * 0.85 - 6],
    ]);
    expect(entry(PLANT.machines, 'mill').available[0]![0]).toBeCloseTo(288, 12);
  });

  test('of a month without any are 0, also with maintenance', () => {
    const closed = Array.from({ length: 28 }, (_, day) => `2027-02-${String(day + 1).padStart(2, '0')}`);
    const plant = derivePlant({ ...EXAMPLE, operation: { ...EXAMPLE.operation, closed } });
    expect(entry(plant.machines, 'shredder').available.map((hours) => hours[1])).toEqual([0, 0]);
  });
});

describe('feeds', () => {
  const at = { amount: 1.9, per: 'tire' } as const;

  test('at the fee at which it holds, what is available less what is committed', () => {
    expect(withFeed({}).others).toEqual([500, 500, 500]);
  });

  test('elasticity −1.6: half the fee brings 2^1.6 = 3.0314 times the tonnes that are not committed', () => {
    const [others] = withFeed({
      tippingFee: { amount: 0.95, per: 'tire' },
      response: { elasticity: -1.6, at },
    }).others;
    expect(others).toBeCloseTo(500 * 3.0314331, 4);
  });

  test('a table holds the entry with the lowest fee not below the one asked, committed included, 0 above the last', () => {
    const response = [
      { fee: 120, available: 350 },
      { fee: 60, available: 800 },
      { fee: 150, available: 200 },
    ];
    const others = (tippingFee: number) => withFeed({ tippingFee, response }).others[0];
    expect([50, 60, 60.01, 120, 150, 151].map(others)).toEqual([500, 500, 50, 50, 0, 0]);
  });

  test('the committed fee is the tipping fee unless it is stated', () => {
    expect(withFeed({}).committedFee).toEqual(withFeed({}).fee);
    expect(withFeed({ committedFee: 100 }).committedFee).toEqual([100, 100, 100]);
    // 1.9 a tire of 9.1 kg.
    expect(withFeed({}).fee[0]).toBeCloseTo((1.9 / 9.1) * 1000, 10);
  });
});

describe('outlets', () => {
  test('the widths of tiers are differences of their cumulative bounds, in proportion to the days in force', () => {
    const { tiers, inForce } = withOutlet({
      tiers: [
        { upTo: 60, price: 210 },
        { upTo: [100, 140, 140], price: 190 },
      ],
      to: '2027-02-07',
    });
    expect(inForce).toEqual([1, 0.25, 0]);
    expect(tiers.map(({ width }) => width)).toEqual([
      [60, 15, 0],
      [40, 20, 0],
    ]);
  });

  test('a price is one tier, without a limit as wide as can be, and 0 where it is not in force', () => {
    expect(withOutlet({ price: 5, from: '2027-02-01' }).tiers).toEqual([
      { width: [0, Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY], price: [5, 5, 5] },
    ]);
  });
});

describe('steps', () => {
  test('in a circuit throughput is divided by the passes, energy and wear are multiplied', () => {
    // 10 t/h · 0.5 · 0.9 = 4.5 t/h net; 20 kWh / 0.45; 3 / 0.45.
    const { throughput, energy, wear, passes } = entry(PLANT.steps, 'shredding');
    expect(throughput[0]).toBeCloseTo(4.5, 12);
    expect(energy[0]).toBeCloseTo(20 / 0.45, 12);
    expect(wear[0]).toBeCloseTo(3 / 0.45, 12);
    expect(passes).toBeCloseTo(1 / 0.45, 12);
  });

  test('in a sizing with return likewise, by 1 / P_1 with P_1 = E_1·F(d_1)', () => {
    const firstDeck = 0.92 * (1 - Math.exp(-((4 / 2.1) ** 1.3)));
    const { throughput, energy, wear, passes } = entry(PLANT.steps, 'milling');
    expect(passes).toBeCloseTo(1 / firstDeck, 12);
    expect(throughput[0]).toBeCloseTo(2 * firstDeck, 12);
    expect(energy[0]).toBeCloseTo(90 / firstDeck, 10);
    // 0.01 a kg is 10 a tonne.
    expect(wear[0]).toBeCloseTo(10 / firstDeck, 10);
  });

  test('losses come off before the decks', () => {
    const { yields } = entry(PLANT.steps, 'milling');
    expect(
      entry(
        yields.map((part) => ({ id: part.material, ...part })),
        'mill-dust',
      ).share,
    ).toBe(0.02);
    const f = (d: number) => 1 - Math.exp(-((d / 2.1) ** 1.3));
    const fine = entry(
      yields.map((part) => ({ id: part.material, ...part })),
      'fine',
    );
    expect(fine.share).toBeCloseTo((0.98 * 0.9 * f(2)) / f(4), 12);
  });
});

describe('contracts', () => {
  test('monthly figures are in proportion to the days in force, both dates included', () => {
    const contract = withContract({ from: '2027-01-31', to: '2027-02-14', term: {} });
    expect(contract.inForce).toEqual([1 / 31, 0.5, 0]);
    expect(contract.monthlyMin).toEqual([40 / 31, 20, 0]);
    expect(contract.monthlyMax).toEqual([80 / 31, 40, 0]);
    expect(contract.lastMonth).toBe(1);
  });

  test('so is the call of the buyer; no maximum stays none', () => {
    const contract = withContract({
      call: { by: 'buyer', expected: 56 },
      monthly: {},
      from: '2027-02-15',
      term: {},
    });
    expect(contract.expected).toEqual([0, 28, 56]);
    expect(contract.monthlyMin).toEqual([0, 0, 0]);
    expect(contract.monthlyMax).toEqual([0, Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY]);
  });

  test('the term minimum falls on the horizon by the days of the remaining life', () => {
    // 1 February 2027 to 31 January 2028: 365 days, 28 + 31 of them inside.
    expect(withContract({ term: { min: 500 } }).termMin).toBeCloseTo((500 * 59) / 365, 12);
    // 1 January 2026 to 31 December 2027, 100 delivered: from the horizon's start 365 days, 90 inside.
    const running = withContract({
      from: '2026-01-01',
      to: '2027-12-31',
      term: { min: 500, max: 900, delivered: 100 },
    });
    expect(running.termMin).toBeCloseTo((400 * 90) / 365, 12);
    // The maximum is not prorated.
    expect(running.termMax).toBe(800);
    // All of it inside.
    expect(withContract({ from: '2027-02-01', to: '2027-03-31', term: { min: 500 } }).termMin).toBe(500);
  });

  test('a contract that is over or has not begun asks for nothing', () => {
    for (const dates of [
      { from: '2026-01-01', to: '2026-12-31' },
      { from: '2027-04-01', to: '2027-12-31' },
    ]) {
      const contract = withContract({ ...dates, term: { min: 500 } });
      expect(contract.termMin).toBeUndefined();
      expect(contract.lastMonth).toBeUndefined();
      expect(contract.monthlyMin).toEqual([0, 0, 0]);
    }
  });

  test('a price index moves the price by its part, between floor and ceiling', () => {
    // 195 + 0.6·(index − 250): 195, 198, 225 → ceiling 220.
    expect(withContract({}).price['wire-free']).toEqual([195, 198, 220]);
  });

  test('an index in points moves it in proportion', () => {
    // 195·(1 + 0.6·(index/250 − 1)) at 250, 255, 300: 195, 197.34, 218.4.
    const indices = [{ id: 'rubber', kind: 'points' as const, base: 250, values: [250, 255, 300] }];
    const { price } = withContract({}, { indices });
    for (const [t, value] of [195, 197.34, 218.4].entries())
      expect(price['wire-free']![t]).toBeCloseTo(value, 10);
  });

  test('the escalation formula of the US producer-price guide, one index of weight 0.5 (form from memory): 240 at 1.10 is 252', () => {
    const indices = [{ id: 'rubber', kind: 'points' as const, base: 100, values: 110 }];
    const { price } = withContract({ price: { base: 240, index: 'rubber', passThrough: 0.5 } }, { indices });
    expect(price['wire-free']![0]).toBeCloseTo(252, 10);
  });

  test('base, floor and index are in money by the mass unit, each of the material where it needs one', () => {
    const indices = [
      { id: 'gas', base: { amount: 2, per: 'GJ' as const }, values: { amount: 3, per: 'GJ' as const } },
    ];
    const { price } = withContract(
      {
        materials: ['shred', 'car-tires'],
        quality: [],
        price: {
          base: { byMaterial: { shred: { amount: 1, per: 'GJ' }, 'car-tires': [10, 20, 30] } },
          index: 'gas',
          passThrough: 0.5,
          floor: { amount: 1.6, per: 'GJ' },
        },
      },
      { indices },
    );
    // Shred 30 MJ/kg: 30 + 0.5·30 = 45, floor 48. Tires 32 MJ/kg: 10 + 0.5·32 = 26, 36, 46, floor 51.2.
    expect(price.shred![0]).toBeCloseTo(48, 10);
    expect(price['car-tires']![2]).toBeCloseTo(51.2, 10);
  });

  test('the charge for the term is the monthly charge of the last month in force, unless it is stated', () => {
    const shortfall = (termCharge?: number) =>
      withContract({
        to: '2027-02-28',
        shortfall: { charge: [30, 40, 50], ...(termCharge === undefined ? {} : { termCharge }) },
      }).shortfall;
    expect(shortfall()?.termCharge).toBe(40);
    expect(shortfall(99)?.termCharge).toBe(99);
    expect(
      entry(
        derivePlant({ ...EXAMPLE, contracts: [{ ...EXAMPLE.contracts![0]!, shortfall: undefined }] })
          .contracts,
        'mats',
      ).shortfall,
    ).toBeUndefined();
  });

  test('quality takes the derived assay', () => {
    // Steel in the wire-free rubber: 0.15·0.01 / (0.7·0.97 + 0.15·0.01).
    const { quality } = PLANT.contracts[0]!;
    expect(quality[0]!.values['wire-free']).toBeCloseTo(0.0015 / 0.6805, 14);
  });
});

test('closing stock stays at the opening unless it is stated', () => {
  const stocked = (stock: Scenario['materials'][number]['stock']) =>
    derivePlant({
      ...EXAMPLE,
      materials: EXAMPLE.materials.map((material) =>
        material.id === 'coarse' ? { ...material, stock } : material,
      ),
    }).materials.find(({ id }) => id === 'coarse')!.stock!;
  expect(stocked({ opening: 12 })).toMatchObject({ closingMin: 12, closingValue: 0, opening: 12 });
  expect(stocked({ opening: 12, closing: { min: 0, value: { amount: 0.1, per: 'kg' } } })).toMatchObject({
    closingMin: 0,
    closingValue: 100,
  });
});
