import fc from 'fast-check';
import { expect, test } from 'vitest';
import { shareWords } from '../../../app/review/plots/axes.ts';
import { largestFirst, layPareto } from '../../../app/review/plots/lay-pareto.ts';
import { laySpans } from '../../../app/review/plots/lay-spans.ts';
import { minuteSpan, mixSpan, shareSpan } from '../../../app/review/plots/row-spans.ts';
import { rateOf } from '../../../trees/statistics/index.ts';
import { rooms, titles } from './arbitrary.ts';

const AXIS = { end: 1, words: shareWords, title: null, names: { at: 'seen', other: 'author’s share' } };

const shares = fc.array(
  fc.record({
    title: titles,
    of: fc.nat(500),
    part: fc.double({ min: 0, max: 1, noNaN: true }),
    soft: fc.option(titles, { nil: undefined }),
    mark: fc.option(fc.double({ min: 0, max: 1, noNaN: true }), { nil: undefined }),
    differs: fc.boolean(),
  }),
  { minLength: 1, maxLength: 30 },
);

test('each row’s interval runs from low over its share to high inside the plot, and rows follow without overlap', () => {
  fc.assert(
    fc.property(shares, rooms, (drawn, room) => {
      const rows = drawn.map(({ title, soft, of, part, mark, differs }, index) =>
        shareSpan({ key: String(index), title, soft, mark, differs, ...rateOf(Math.round(of * part), of) }),
      );
      const { spans, plot, height } = laySpans(rows, AXIS, room);
      for (const [index, { low, at, high, row }] of spans.entries()) {
        const marks = [plot.left, low, at, high, plot.right].filter((place) => place !== null);
        expect(marks).toEqual(marks.toSorted((a, b) => a - b));
        expect(row.middle).toBeGreaterThan(row.box.top);
        expect(row.middle).toBeLessThan(row.box.bottom);
        for (const { y } of [...row.title, row.figures]) expect(y).toBeGreaterThan(row.box.top);
        const next = spans[index + 1];
        expect(row.box.bottom).toBeLessThanOrEqual(next?.row.box.top ?? height);
      }
    }),
  );
});

test('in a narrow column titles and figures stand over the mark, in a wide one beside it', () => {
  const rows = [shareSpan({ key: 'a', title: 'Regulator open', ...rateOf(8, 10), mark: 0.5 })];
  const narrow = laySpans(rows, AXIS, { width: 352, em: 13 }).rows[0];
  const wide = laySpans(rows, AXIS, { width: 900, em: 13 }).rows[0];
  expect(narrow?.figures.y).toBeLessThan((narrow?.middle ?? 0) - 13);
  expect(wide?.figures.x).toBeGreaterThan(450);
});

test('a share of no jobs is not drawn, and an interval wider than 40 points is called too wide to say', () => {
  expect(shareSpan({ key: 'a', title: 'A', ...rateOf(0, 0) })).toMatchObject({
    at: null,
    low: null,
    words: 'no jobs',
    note: null,
  });
  expect(shareSpan({ key: 'a', title: 'A', ...rateOf(2, 4) })).toMatchObject({
    note: 'too wide to say',
    broken: true,
  });
  expect(shareSpan({ key: 'a', title: 'A', ...rateOf(80, 100) })).toMatchObject({
    note: null,
    broken: false,
  });
  expect(shareSpan({ key: 'a', title: 'A', ...rateOf(2, 4), differs: true })).toMatchObject({
    note: 'differs',
    diamond: true,
  });
});

test('counts of a thousand and more are written in groups of three, as in tables', () => {
  expect(shareSpan({ key: 'a', title: 'A', ...rateOf(1001, 2000) }).words).toBe('50\u202f%, 1,001 of 2,000');
  const spread = { jobs: 1204, mean: 11, lower: 5, median: 8, upper: 20, error: 0.5 };
  expect(minuteSpan({ key: 'a', title: 'A', spread, expected: null }).words).toBe('8 min, 1,204 jobs');
});

test('what tells rows of one title apart stands behind it where it fits, else under it, and is part of no other row', () => {
  const soft = 'Dark screen, refitted panel';
  const row = shareSpan({ key: 'a', title: 'Picture: Border, no picture', soft, ...rateOf(8, 10) });
  const plain = shareSpan({ key: 'b', title: 'Speaker', ...rateOf(8, 10) });
  const titles = (width: number) =>
    laySpans([row, plain], AXIS, { width, em: 13 }).rows.map(({ title }) =>
      title.map(({ words, soft }) => [words, soft]),
    );
  expect(titles(1200)).toEqual([[['Picture: Border, no picture', soft]], [['Speaker', '']]]);
  expect(titles(352)).toEqual([
    [
      ['Picture: Border, no picture', ''],
      ['', soft],
    ],
    [['Speaker', '']],
  ]);
});

test('minutes are drawn as median between quartiles with what the tree expects on the same axis', () => {
  const rows = [
    minuteSpan({
      key: 'a',
      title: 'Dead',
      spread: { jobs: 9, mean: 11, lower: 5, median: 8, upper: 20, error: 0.5 },
      expected: 30,
    }),
  ];
  const { spans, plot, ticks } = laySpans(
    rows,
    { ...AXIS, end: null, words: String },
    { width: 900, em: 13 },
  );
  const [span] = spans;
  expect([span?.low, span?.at, span?.high, span?.other]).toEqual(
    [5, 8, 20, 30].map((minutes) => expect.closeTo(plot.left + (minutes / 30) * (plot.right - plot.left), 6)),
  );
  expect(ticks.at(-1)?.words).toBe('30');
});

test('a mix is drawn now against before, and says so where one side has no jobs', () => {
  expect(
    mixSpan({ key: 'a', title: 'A', now: 3, nowOf: 12, before: 10, beforeOf: 100, differs: false }),
  ).toMatchObject({ at: 0.25, other: 0.1 });
  expect(
    mixSpan({ key: 'a', title: 'A', now: 3, nowOf: 12, before: 0, beforeOf: 0, differs: false }),
  ).toMatchObject({ other: null, words: 'no jobs to 25\u202f%' });
});

test('a Pareto is sorted, and its shares so far rise to what the bars make up of the total', () => {
  const values = fc
    .array(fc.nat(5000), { minLength: 1, maxLength: 40 })
    .filter((drawn) => drawn.some((value) => value > 0));
  fc.assert(
    fc.property(values, rooms, (drawn, room) => {
      const bars = largestFirst(
        drawn.map((value, index) => ({ key: String(index), title: 'A', value, words: String(value) })),
      );
      const total = drawn.reduce((sum, value) => sum + value, 0);
      const { bars: laid, plot } = layPareto(bars, total, room);
      for (const [index, { to, upToX }] of laid.entries()) {
        expect(to).toBeLessThanOrEqual(laid[index - 1]?.to ?? plot.right + 1e-9);
        expect(upToX).toBeGreaterThanOrEqual(laid[index - 1]?.upToX ?? plot.left);
        expect(upToX).toBeGreaterThanOrEqual(to - 1e-9);
      }
      expect(laid.at(-1)?.upToHere).toBeCloseTo(1, 9);
    }),
  );
});
