import { expect, it } from 'vitest';
import { measure, sortedRows, tableCsv, type Column } from '../../../app/review/page/table.ts';

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
