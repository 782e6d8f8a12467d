import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { csvOf, type CsvCell } from '../../../app/review/csv.ts';

/** Reads CSV by the grammar of RFC 4180, section 2. */
function parse(text: string): string[][] {
  const record = /(?:"((?:[^"]|"")*)"|([^",\r\n]*))(,|\r\n)/y;
  const rows: string[][] = [[]];
  while (record.lastIndex < text.length) {
    const [, quoted, plain = '', end] = record.exec(text) ?? [];
    if (end === undefined) throw new Error(`no CSV at ${String(record.lastIndex)}`);
    rows.at(-1)?.push(quoted === undefined ? plain : quoted.replaceAll('""', '"'));
    if (end === '\r\n') rows.push([]);
  }
  rows.pop();
  return rows;
}

const text = fc.oneof(
  fc.string({ unit: 'grapheme' }),
  fc.string({ unit: fc.constantFrom('"', ',', '\r', '\n', '=', '+', '-', '@', '\t', 'a', 'Ω') }),
);
const cell = fc.oneof(text, fc.double({ noNaN: true, noDefaultInfinity: true }), fc.constant(null));

describe('a table as CSV', () => {
  it('reads back as it was, but for an apostrophe before a text that would be taken for a formula', () => {
    const table = fc
      .integer({ min: 1, max: 5 })
      .chain((width) =>
        fc.array(fc.array(cell, { minLength: width, maxLength: width }), { minLength: 1, maxLength: 6 }),
      );
    fc.assert(
      fc.property(table, (rows: CsvCell[][]) => {
        const heads = rows[0]?.map((_, index) => `head ${String(index)}`) ?? [];
        const back = parse(csvOf(heads, rows));
        expect(back).toEqual([heads, ...rows.map((row) => row.map(asText))]);
      }),
    );
  });

  it('gives numbers plainly, so that they are read as numbers', () => {
    expect(csvOf(['minutes', 'of'], [[-12.5, 1234567]])).toBe('minutes,of\r\n-12.5,1234567\r\n');
  });

  it.each(['=1+1', '+1', '-1', '@SUM(A1)', '\tx'])(
    'does not let the text %j be taken for a formula',
    (one) => {
      expect(parse(csvOf(['title'], [[one]]))[1]).toEqual([`'${one}`]);
    },
  );
});

function asText(one: CsvCell): string {
  if (one === null) return '';
  if (typeof one === 'number') return String(one);
  return ['=', '+', '-', '@', '\t', '\r'].some((sign) => one.startsWith(sign)) ? `'${one}` : one;
}
