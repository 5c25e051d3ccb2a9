import type { Json, Members } from './plant-document.js';

/** What a cell says: nothing, a text, a figure, a rate, one of these for each month. */
export function readCell(text: string, kind: string | undefined): Json | 'no figure' {
  const plain = text.trim();
  if (plain === '') return undefined;
  if (kind !== 'figure') return plain;
  if (plain.includes(';')) {
    const parts = plain.split(';').map((part) => readCell(part, kind));
    return parts.some((part) => part === 'no figure' || part === undefined) ? 'no figure' : parts;
  }
  const [, figure, per] = /^([^/]*?)\s*(?:\/\s*(.+))?$/.exec(plain) ?? [];
  const digits = (figure ?? '').replace(/,(?=\d{3}(\D|$))/g, '');
  if (!/^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(digits)) return 'no figure';
  return per === undefined ? Number(digits) : { amount: Number(digits), per };
}

/** A member as its cell holds it. */
export function cellText(value: Json): string {
  if (value === undefined || value === null) return '';
  if (Array.isArray(value)) return value.map(cellText).join('; ');
  if (typeof value !== 'object') return String(value);
  const { amount, per } = value as Members;
  return amount === undefined ? '' : `${String(amount)} / ${String(per)}`;
}

/** Rows and columns as a spreadsheet copies them. */
export function pastedCells(text: string): string[][] {
  return text
    .replace(/\r?\n$/, '')
    .split(/\r?\n/)
    .map((line) => line.split('\t').map((cell) => cell.trim()));
}

/** Rows of a CSV (RFC 4180); a semicolon or a tab may stand between cells too. */
export function csvRows(text: string): string[][] {
  const plain = text.replace(/^\uFEFF/, '');
  const [head = ''] = plain.split(/\r?\n/);
  const between = [',', ';', '\t'].find((mark) => head.includes(mark)) ?? ',';
  const rows: string[][] = [[]];
  const cell = new RegExp(`(?:"((?:[^"]|"")*)"|([^"${between}\\r\\n]*))(${between}|\\r?\\n|$)`, 'gy');
  for (let match = cell.exec(plain); match !== null; match = cell.exec(plain)) {
    rows[rows.length - 1].push(match[1]?.replaceAll('""', '"') ?? match[2] ?? '');
    if (match[3] === '') break;
    if (match[3] !== between) rows.push([]);
  }
  return rows.filter((row) => row.length > 1);
}
