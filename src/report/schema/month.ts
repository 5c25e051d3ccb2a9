import * as z from 'zod';
import { energy, hours, load, mass, money, moneyByMass, monthLabel, text } from './quantities.js';

/** One month of the plan's document. */

export const staffing = z.enum(['hourly', 'by the shift', 'by the month']);

export const receipt = z.strictObject({
  feed: text,
  material: text,
  mass: mass('Received.'),
  committed: mass('That had to be taken.'),
  available: mass('That could be had, committed included.'),
  income: money('Tipping fees.'),
});

const step = z.strictObject({
  step: text,
  machine: text,
  input: text,
  mass: mass('Of input.'),
  hours: hours('Of the machine.'),
  windows: z.array(
    z.strictObject({ window: text, mass: mass('Of input.'), hours: hours('Of the machine.') }),
  ),
  outputs: z.array(z.strictObject({ material: text, mass: mass('Made.') })),
});

const machine = z.strictObject({
  machine: text,
  hours: hours('Used.'),
  available: hours('That it has.'),
  windows: z.array(z.strictObject({ window: text, hours: hours('Used.'), available: hours('That it has.') })),
});

const crew = z.strictObject({
  crew: text,
  staffing,
  hours: hours('Attended.'),
  wages: money('Paid.'),
  windows: z.array(
    z.strictObject({
      window: text,
      hours: hours('Attended.'),
      shifts: z.number().optional().describe('Shifts to call; where staffed by the shift.'),
      days: z.number().optional().describe('Days on which the window begins; where staffed by the shift.'),
      open: z.boolean().optional().describe('Whether the window is staffed; where staffed by the month.'),
    }),
  ),
});

const stock = z.strictObject({
  material: text,
  opening: mass('At the start of the month.'),
  closing: mass('At its end.'),
  min: mass('That must be there at its end.'),
  capacity: mass('Absent: unlimited.').optional(),
});

const outletSales = z.strictObject({
  outlet: text,
  material: text,
  mass: mass('Sold.'),
  receipts: money('Before freight and packing.'),
  tiers: z.array(
    z.strictObject({
      mass: mass('Sold in the tier.'),
      width: mass('Of the tier; absent: unlimited.').optional(),
      price: moneyByMass('Before freight and packing.'),
    }),
  ),
});

const contract = z.strictObject({
  contract: text,
  buyer: text,
  delivered: mass('Delivered.'),
  min: mass('Of the month.'),
  max: mass('Of the month; absent: none.').optional(),
  expected: mass("The buyer's expected call.").optional(),
  missed: mass('Of the minimum or the call.'),
  shortfallCharge: money('For what was missed.'),
  missedTerm: mass("Of the term's minimum; in the contract's last month."),
  termCharge: money('For what of the term was missed.'),
  receipts: money('Before freight and packing.'),
  materials: z.array(
    z.strictObject({ material: text, mass: mass('Delivered.'), price: moneyByMass('In this month.') }),
  ),
});

const energyUse = z.strictObject({
  total: energy('Of the month.'),
  windows: z.array(
    z.strictObject({
      window: text,
      energy: energy('In the window.'),
      powerPrice: z.number().describe('Currency per kWh.'),
      averageLoad: load("On average over the window's hours."),
      attendedShare: z
        .number()
        .optional()
        .describe("Attended hours over the window's, the most of any crew; absent without crews."),
    }),
  ),
  peak: load('That the demand charge is paid on; absent without one.').optional(),
  peakWindow: text.optional().describe('The window that sets the peak.'),
});

export const disposal = z.strictObject({
  disposal: text,
  material: text,
  mass: mass('Disposed of.'),
  cost: money('Charge and haulage.'),
});

export const monthRecord = z
  .strictObject({
    month: monthLabel,
    receipts: z.array(receipt),
    steps: z.array(step),
    machines: z.array(machine),
    crews: z.array(crew),
    stocks: z.array(stock),
    stores: z.array(z.strictObject({ store: text, mass: mass('Held.'), capacity: mass('Of the store.') })),
    sales: z.array(outletSales),
    contracts: z.array(contract).describe('Those in force in the month.'),
    disposals: z.array(disposal),
    energy: energyUse,
  })
  .meta({ id: 'month' });
