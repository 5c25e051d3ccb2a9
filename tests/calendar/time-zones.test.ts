import { afterEach, expect, test } from 'vitest';
import { derivePlant } from '../../src/plant/derive-plant.js';
import { EXAMPLE } from '../plant/example-scenario.js';

const HOME = process.env.TZ;

afterEach(() => {
  if (HOME === undefined) delete process.env.TZ;
  else process.env.TZ = HOME;
});

/** Minutes behind UTC on 1 January 2027, which shows that the zone is in force. */
const ZONES = [
  ['UTC', 0],
  ['America/New_York', 300],
  ['Asia/Kolkata', -330],
  ['Pacific/Auckland', -780],
  ['Pacific/Kiritimati', -840],
] as const;

test('the derived plant is the same to the byte in every time zone', () => {
  // Twelve months, so that both changes of the clock fall inside.
  const scenario = {
    ...EXAMPLE,
    horizon: { firstMonth: '2027-01', months: 12 },
    operation: {
      ...EXAMPLE.operation,
      windows: EXAMPLE.operation.windows.map((window) => ({ ...window, powerPrice: 0.1 })),
    },
    indices: [{ id: 'rubber', base: 250, values: 255 }],
  };
  const derived = ZONES.map(([zone, offset]) => {
    process.env.TZ = zone;
    expect(new Date(2027, 0, 1).getTimezoneOffset()).toBe(offset);
    return JSON.stringify(derivePlant(scenario));
  });
  expect(new Set(derived).size).toBe(1);
});
