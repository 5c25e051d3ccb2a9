import { expect, it } from 'vitest';
import { derivePlant } from '../../src/plant/derive-plant.js';
import { SHIPPED, shippedScenario } from './shipped.js';

const scenarios = SHIPPED.map(shippedScenario);
const twelve = shippedScenario('twelve-months');
const steps = scenarios.flatMap((scenario) => scenario.steps);

it.each(['shares', 'separation', 'sizing'])('yields by %s are used', (form) => {
  expect(steps.some(({ yields }) => form in yields)).toBe(true);
});

it('a shredder works in a closed circuit, and a screen returns its oversize', () => {
  expect(steps.some(({ machine, circuit }) => machine === 'shredder' && circuit !== undefined)).toBe(true);
  expect(steps.some(({ yields }) => 'sizing' in yields && yields.sizing.decks[0].over === 'return')).toBe(
    true,
  );
});

it.each(SHIPPED)('%s: wire comes back from the step that cleans what was knocked off it', (name) => {
  const plant = derivePlant(shippedScenario(name));
  const makes = (input: string) =>
    plant.steps
      .filter((step) => step.input === input)
      .flatMap(({ yields }) => yields.map(({ material }) => material));
  const wire = plant.materials.filter(({ form }) => form === 'steel').map(({ id }) => id);
  const loops = wire.filter((id) => makes(id).some((off) => makes(off).includes(id)));
  expect(loops.length).toBe(1);
});

it.each(SHIPPED)('%s: starter figures are referred to', (name) => {
  expect(derivePlant(shippedScenario(name)).starterFigures.length).toBeGreaterThan(0);
});

it('one mill has two settings', () => {
  const settings = twelve.steps.filter(({ machine, input }) => machine === 'mill' && input === 'fine');
  expect(settings.length).toBe(2);
});

it('the one month is the plant of the twelve months: the same machines and steps', () => {
  const one = shippedScenario('one-month');
  expect(one.machines).toEqual(twelve.machines);
  expect(one.steps).toEqual(twelve.steps);
});

it('twelve months: season, four windows, crews by the shift, a permit, four contracts and more of their kinds', () => {
  const { feeds, operation, crews, stores, contracts } = twelve;
  expect(feeds.some(({ available }) => Array.isArray(available) && new Set(available).size > 6)).toBe(true);
  expect(operation.windows.map(({ id }) => id)).toEqual(['day', 'evening', 'night', 'weekend']);
  expect(crews?.every(({ staffing }) => staffing === 'by the shift')).toBe(true);
  expect(stores?.some(({ note }) => note?.startsWith('permit'))).toBe(true);
  expect(contracts?.length).toBeGreaterThanOrEqual(4);
  const kinds = contracts?.map(({ price }) => price);
  expect(kinds?.some((price) => typeof price === 'object' && 'floor' in price && 'ceiling' in price)).toBe(
    true,
  );
  expect(JSON.stringify(contracts?.find(({ quality = [] }) => quality.length > 1)?.price)).toContain(
    '"per":"GJ"',
  );
  expect(contracts?.some(({ term, shortfall }) => term?.min !== undefined && shortfall !== undefined)).toBe(
    true,
  );
  expect(contracts?.some(({ call }) => call?.by === 'buyer')).toBe(true);
});

it('the uncertain prices of one group are moved together, tier by tier', () => {
  const groups = new Set(twelve.uncertainty?.map(({ group }) => group));
  expect(groups.size).toBeGreaterThanOrEqual(3);
});

it('short tons: fees by the tire and powder by the pound', () => {
  const scenario = shippedScenario('short-tons');
  expect(scenario.units).toEqual({ mass: 'short ton', currency: 'USD' });
  expect(scenario.horizon.months).toBeGreaterThan(2);
  expect(JSON.stringify(scenario.feeds)).toContain('"per":"tire"');
  const powder = scenario.outlets?.filter(({ material }) => material.startsWith('powder'));
  expect(JSON.stringify(powder)).toContain('"per":"lb"');
});
