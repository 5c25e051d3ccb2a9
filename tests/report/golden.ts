import { readFileSync, writeFileSync } from 'node:fs';

/** The text of a golden file; with UPDATE_GOLDEN=1 (npm run golden) the file is written first. */
export function golden(name: string, text: string): string {
  const file = new URL(`golden/${name}`, import.meta.url);
  if (process.env.UPDATE_GOLDEN === '1') writeFileSync(file, text);
  return readFileSync(file, 'utf8');
}
