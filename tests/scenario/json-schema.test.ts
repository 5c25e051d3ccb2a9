import { Ajv2020 } from 'ajv/dist/2020.js';
import addFormats from 'ajv-formats';
import { describe, expect, test } from 'vitest';
import { scenarioJsonSchema } from '../../src/scenario/json-schema.js';
import { DELETED, edited } from './edited.js';
import { sampleScenario } from './sample.js';

const ajv = new Ajv2020({ allErrors: true, strict: true, strictTypes: false, strictRequired: false });
addFormats.default(ajv);
const validate = ajv.compile(scenarioJsonSchema());

describe('the JSON Schema of the scenario format', () => {
  test('is draft 2020-12 with an identifier and a title', () => {
    const { $schema, $id, title } = scenarioJsonSchema();
    expect($schema).toBe('https://json-schema.org/draft/2020-12/schema');
    expect($id).toBe('urn:cutpoint-scenario:1');
    expect(title).toEqual(expect.any(String));
  });

  test('accepts a scenario that is right', () => {
    expect(validate(sampleScenario()) ? [] : validate.errors).toEqual([]);
  });

  test.each<[string, unknown]>([
    ['/format', 'cutpoint-scenario/2'],
    ['/title', DELETED],
    ['/colour', 'red'],
    ['/discountRate', '0.08'],
    ['/horizon/months', 61],
    ['/horizon/firstMonth', '2027-13'],
    ['/horizon/weeks', 4],
    ['/units/currency', 'eur'],
    ['/operation/closed/0', '2027-02-30'],
    ['/operation/windows/0/from', '24:00'],
    ['/operation/windows/0/days', []],
    ['/materials/0/id', 'Car tires'],
    ['/materials/0/assay/Steel', 0.1],
    ['/materials/0/assay/steel', 15],
    ['/machines/0/site', 'north'],
    ['/machines/0/count', 1.5],
    ['/steps/0/yields', {}],
    ['/steps/0/yields/sizing', {}],
    ['/steps/0/yields/shares/Dust', 0.1],
    ['/steps/1/throughput', 0],
    ['/outlets/1/price', { amount: 1, per: 'lbs' }],
    ['/outlets/1/price/currency', 'USD'],
    ['/outlets/0/tiers', []],
    ['/contracts/0/price/base/byMaterial/chip', [{ amount: '1', per: 'GJ' }]],
    ['/contracts/1/call/by', 'plant'],
    ['/uncertainty/0/distribution/kind', 'beta'],
    ['/stores/0', null],
  ])('refuses a mistake of shape: %s (%o)', (pointer, value) => {
    expect(validate(edited({ [pointer]: value }))).toBe(false);
  });

  test('describes every field', () => {
    const bare = [...objectsIn(scenarioJsonSchema())].flatMap(([place, { properties }]) =>
      Object.entries((properties ?? {}) as Record<string, { description?: string }>)
        .filter(([, property]) => property.description === undefined)
        .map(([key]) => `${place}/${key}`),
    );
    expect(bare).toEqual([]);
  });

  test('closes every object and gives every record the pattern of its keys', () => {
    const open = [...objectsIn(scenarioJsonSchema())].filter(
      ([, schema]) =>
        schema.type === 'object' &&
        schema.additionalProperties !== false &&
        schema.propertyNames === undefined,
    );
    expect(open.map(([place]) => place)).toEqual([]);
  });

  test('is the same each time, to the order of its keys', () => {
    expect(JSON.stringify(scenarioJsonSchema())).toBe(JSON.stringify(scenarioJsonSchema()));
  });
});

type Schema = Readonly<Record<string, unknown>>;

function* objectsIn(value: unknown, place = ''): Generator<[string, Schema]> {
  if (typeof value !== 'object' || value === null) return;
  if (!Array.isArray(value)) yield [place, value as Schema];
  for (const [key, inner] of Object.entries(value)) yield* objectsIn(inner, `${place}/${key}`);
}
