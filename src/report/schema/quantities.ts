import * as z from 'zod';
import { monthSchema } from '../../scenario/schema/figures.js';

/** Figures of the plan's document, each with its unit in its description. */

export const mass = (words: string) => z.number().describe(`Mass unit of the document. ${words}`);
export const money = (words: string) => z.number().describe(`Currency of the document. ${words}`);
export const moneyByMass = (words: string) => z.number().describe(`Currency per mass unit. ${words}`);
export const hours = (words: string) => z.number().describe(`Hours. ${words}`);
export const energy = (words: string) => z.number().describe(`kWh. ${words}`);
export const load = (words: string) => z.number().describe(`kW. ${words}`);

export const text = z.string();
export const monthLabel = monthSchema;
