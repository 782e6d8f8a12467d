import { expect, it } from 'vitest';
import { interval, measure, sortedRows, tableCsv, type Column } from '../../../app/review/page/table.ts';

interface Row {
  readonly title: string;
  readonly jobs: number | null;
}
const ROWS: readonly Row[] = [
  { title: 'Cold joint', jobs: 2 },
  { title: 'Charger faulty', jobs: 9 },
  { title: 'Cell worn out', jobs: 2 },
];
const COLUMNS: readonly Column<Row>[] = [
  {
    title: 'Finding',
    isText: true,
    text: ({ title }) => title,
    plain: [{ head: 'title', cell: ({ title }) => title }],
    order: ({ title }) => title,
  },
  measure<Row>('Jobs', 'jobs', ({ jobs }) => jobs, String, { order: ({ jobs }) => jobs ?? 0 }),
  {
    title: 'Hidden',
    text: () => '',
    plain: [{ head: 'twice', cell: ({ jobs }) => (jobs ?? 0) * 2 }],
    isHidden: true,
  },
];
const titles = (rows: readonly Row[]) => rows.map(({ title }) => title);

it('sorts a table by a column, keeping those alike in their order', () => {
  expect(titles(sortedRows(COLUMNS, ROWS, { column: 1, descending: true }))).toEqual([
    'Charger faulty',
    'Cold joint',
    'Cell worn out',
  ]);
  expect(titles(sortedRows(COLUMNS, ROWS, { column: 0, descending: false }))).toEqual([
    'Cell worn out',
    'Charger faulty',
    'Cold joint',
  ]);
});

it('leaves a table as it came where it cannot be sorted by a column', () => {
  expect(sortedRows(COLUMNS, ROWS, { column: 2, descending: true })).toBe(ROWS);
  expect(sortedRows(COLUMNS, ROWS, null)).toBe(ROWS);
});

it('exports columns that are not shown too, and nothing for what is not known', () => {
  expect(tableCsv(COLUMNS, [{ title: 'Cold joint', jobs: null }])).toBe(
    'title,jobs,twice\r\nCold joint,,0\r\n',
  );
});

it('writes an interval with both ends and how it was come by, and a dash where there is none', () => {
  type Seen = { readonly of: { readonly low: number; readonly high: number } | null };
  const column = interval<Seen>('Wilson', ({ of }) => of);
  const known = { of: { low: 0.781, high: 0.849 } };
  expect([known, { of: null }].map(column.text)).toEqual(['78 to 85\u202f%', '–']);
  expect(column.about).toBe('95\u202f% interval (Wilson)');
  expect(tableCsv([column], [known, { of: null }])).toBe('low,high\r\n0.781,0.849\r\n,\r\n');
});
