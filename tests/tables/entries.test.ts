/** Threads of glands and digits of IP codes: against what is published. */
import { expect, it, test } from 'vitest';
import { entryThread, entryThreads, threadMm } from '../../server/tables/entry-threads.ts';
import { ipDigits } from '../../server/tables/ip-codes.ts';
import { figure, readTable } from '../reference/read.ts';

const rows = readTable('metric-entry-threads.csv').filter((row) => row.clearance_hole_mm !== '');

test.each(rows)('$thread: its hole and the cables it usually clamps', (row) => {
  expect(entryThread(row.thread)).toEqual({
    thread: row.thread,
    holeMm: figure(row, 'clearance_hole_mm'),
    clampsMm: [figure(row, 'typical_clamp_min_mm'), figure(row, 'typical_clamp_max_mm')],
  });
  expect(threadMm(row.thread)).toBe(figure(row, 'clearance_hole_mm') - 0.5);
});

it('are all that the table has', () => {
  expect(entryThreads.map(({ thread }) => thread)).toEqual(rows.map(({ thread }) => thread));
  expect(threadMm('12 mm')).toBe(0);
  expect(threadMm(undefined)).toBe(0);
});

test.each([
  ['IP65', { solids: 6, water: 5 }],
  ['IPX4', { solids: undefined, water: 4 }],
  ['IP2X', { solids: 2, water: undefined }],
  ['IP69K', { solids: 6, water: 9 }],
  ['IP6', undefined],
  ['damp', undefined],
  [undefined, undefined],
])('%s', (code, digits) => {
  expect(ipDigits(code)).toEqual(digits);
});
