import { expect, it } from 'vitest';
import { readMps } from './read-mps.js';

const SAMPLE = `* a comment
NAME          SAMPLE
ROWS
 N  COST
 L  LIM1
 G  LIM2
 E  MYEQN
 N  MEMO
COLUMNS
    X         COST             1   LIM1             2
    X         LIM2             1
    MARKER                 'MARKER'                 'INTORG'
    Y         COST             2   MYEQN           -1
    MARKER                 'MARKER'                 'INTEND'
    Z         MYEQN            1   MEMO             7
RHS
    RHS       COST            -5   LIM1             4
    RHS       LIM2             1   MYEQN            7
RANGES
    RNG       LIM1           2.5   MYEQN           -3
BOUNDS
 UP BND       X                4
 FR BND       Z
 BV BND       Y
ENDATA
`;

it('an MPS text gives its rows, ranges, bounds, offset and whole numbers', () => {
  expect(readMps(SAMPLE)).toEqual({
    sense: 'minimize',
    offset: 5,
    columnKeys: ['X', 'Y', 'Z'],
    rowKeys: ['LIM1', 'LIM2', 'MYEQN'],
    cost: Float64Array.of(1, 2, 0),
    columnLower: Float64Array.of(0, 0, Number.NEGATIVE_INFINITY),
    columnUpper: Float64Array.of(4, 1, Number.POSITIVE_INFINITY),
    integer: Uint8Array.of(0, 1, 0),
    rowLower: Float64Array.of(1.5, 1, 4),
    rowUpper: Float64Array.of(4, Number.POSITIVE_INFINITY, 7),
    matrix: {
      starts: Int32Array.of(0, 2, 3, 4),
      rows: Int32Array.of(0, 1, 2, 2),
      values: Float64Array.of(2, 1, -1, 1),
    },
  });
});

it('an MPS text that it does not know is refused', () => {
  expect(() => readMps('NAME\nROWS\n Q  R1\nCOLUMNS\n    X R1 1\nENDATA\n')).toThrow(SyntaxError);
  expect(() => readMps(SAMPLE.replace(' UP BND', ' XX BND'))).toThrow(SyntaxError);
});
