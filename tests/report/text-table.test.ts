import { describe, expect, test } from 'vitest';
import { displayWidth, printable } from '../../src/report/printable.js';
import { textTable, wrapText } from '../../src/report/text-table.js';

describe('a table in text', () => {
  test('has figures right, words left and units once in the head', () => {
    const text = textTable(
      [
        { head: 'machine', align: 'left' },
        { head: 'hours', unit: 'h', align: 'right' },
      ],
      [['mill', '120.0'], ['rasper', '1,000.0'], 'rule', ['all', '1,120.0']],
    );
    expect(text).toBe(
      [
        'machine    hours',
        '               h',
        '----------------',
        'mill       120.0',
        'rasper   1,000.0',
        '----------------',
        'all      1,120.0',
        '',
      ].join('\n'),
    );
  });

  test('breaks words into lines where there is no room, figures never', () => {
    const text = textTable(
      [
        { head: 'name', align: 'left' },
        { head: 'mass', align: 'right' },
      ],
      [['granulate under four millimetres', '12,345.6']],
      24,
    );
    expect(text.split('\n').every((line) => line.length <= 24)).toBe(true);
    expect(text).toContain('12,345.6');
    expect(text).toContain('millimetres\n');
  });

  test('counts wide characters as two columns and marks as none', () => {
    expect(displayWidth('ゴム')).toBe(4);
    expect(displayWidth('e\u0301')).toBe(1);
    const text = textTable(
      [
        { head: 'name', align: 'left' },
        { head: 'mass', align: 'right' },
      ],
      [
        ['ゴム', '1.0'],
        ['abcd', '2.0'],
      ],
    );
    expect(text).toContain('ゴム   1.0\nabcd   2.0\n');
  });

  test('lets no control character or direction mark through to the terminal', () => {
    expect(printable('a\u001b[2Jb\r\n\u202ec')).toBe('a\ufffd[2Jb\ufffd\ufffd\ufffdc');
  });
});

test('a word that is too long is cut, after a hyphen where there is one', () => {
  expect(wrapText('truck-tire chips', 9)).toEqual(['truck-', 'tire', 'chips']);
  expect(wrapText('abcdefghij', 4)).toEqual(['abcd', 'efgh', 'ij']);
});
