import fc from 'fast-check';
import { expect, test } from 'vitest';
import { axisEnd, shareStart, ticksAlong } from '../../../app/review/plots/axes.ts';
import { monthTicks, monthWords } from '../../../app/review/plots/month-ticks.ts';
import { nameLines } from '../../../app/review/plots/name-lines.ts';
import { nameMarks } from '../../../app/review/plots/name-marks.ts';
import { boxesTouch, placeLabels, placesBeside } from '../../../app/review/plots/place-labels.ts';
import { settleLabels } from '../../../app/review/plots/settle-labels.ts';
import { textWidth } from '../../../app/review/plots/text-width.ts';
import { thinLabels } from '../../../app/review/plots/thin-labels.ts';
import { wrapWords } from '../../../app/review/plots/wrap-words.ts';
import type { Tick } from '../../../app/review/plots/room.ts';
import { rooms, titles } from './arbitrary.ts';

function expectApart(ticks: readonly Tick[], em: number): void {
  const worded = ticks.filter(({ words }) => words !== null).toSorted((a, b) => a.at - b.at);
  for (const [index, { at, words }] of worded.entries()) {
    const next = worded[index + 1];
    if (next === undefined) continue;
    const wide = (textWidth(words ?? '', em) + textWidth(next.words ?? '', em)) / 2;
    expect(next.at - at).toBeGreaterThanOrEqual(wide);
  }
}

test('labels that are kept do not run into each other, and of two that collide the lower rank stays', () => {
  fc.assert(
    fc.property(
      fc.array(
        fc.record({
          at: fc.integer({ min: 0, max: 500 }),
          width: fc.integer({ min: 1, max: 80 }),
          rank: fc.nat(3),
        }),
      ),
      (labels) => {
        const shown = thinLabels(labels, 4);
        const kept = labels.filter((_, index) => shown[index]);
        for (const [index, a] of kept.entries())
          for (const b of kept.slice(index + 1))
            expect(Math.abs(a.at - b.at)).toBeGreaterThanOrEqual((a.width + b.width) / 2 + 4);
        for (const [index, label] of labels.entries())
          if (shown[index] === false)
            expect(
              kept.some(
                (other) =>
                  other.rank <= label.rank &&
                  Math.abs(other.at - label.at) < (other.width + label.width) / 2 + 4,
              ),
            ).toBe(true);
      },
    ),
  );
});

test('labels beside marks touch neither each other nor a mark, and stay within', () => {
  const within = { left: 0, right: 600, top: 0, bottom: 300 };
  const spots = fc.array(fc.tuple(fc.integer({ min: 0, max: 600 }), fc.integer({ min: 0, max: 300 })), {
    maxLength: 30,
  });
  fc.assert(
    fc.property(spots, (points) => {
      const marks = points.map(([x, y]) => ({ left: x - 4, right: x + 4, top: y - 4, bottom: y + 4 }));
      const boxes = placeLabels(
        points.map(([x, y]) => placesBeside(x, y, 70, 18, 9)),
        marks,
        within,
      ).filter((box) => box !== null);
      for (const [index, box] of boxes.entries()) {
        expect([...boxes.slice(index + 1), ...marks].some((other) => boxesTouch(box, other))).toBe(false);
        expect(
          Math.min(box.left, box.top, within.right - box.right, within.bottom - box.bottom),
        ).toBeGreaterThanOrEqual(0);
      }
    }),
  );
});

test('a lone label stands to the right of its mark, and one at the right edge to the left', () => {
  const within = { left: 0, right: 100, top: 0, bottom: 100 };
  const [right, left] = [20, 95].map((x) => placeLabels([placesBeside(x, 50, 40, 10, 5)], [], within)[0]);
  expect(right).toMatchObject({ left: 25, right: 65 });
  expect(left).toMatchObject({ left: 50, right: 90 });
});

test('settled labels keep their order, do not overlap, and move only as far as they must', () => {
  const labels = [
    { at: 50, height: 20 },
    { at: 52, height: 40 },
  ];
  expect(settleLabels(labels.slice(0, 1), 0, 100)).toEqual([50]);
  expect(settleLabels(labels, 0, 100)).toEqual([36, 66]);
  expect(settleLabels(labels, 30, 100)).toEqual([40, 70]);
  expect(
    settleLabels(
      labels.map(({ at }) => ({ at: at + 45, height: 20 })),
      0,
      100,
    ),
  ).toEqual([70, 90]);
});

test('settled labels lie within and apart, and no shift of those that touch brings them nearer to where they are wanted', () => {
  const label = fc.record({
    at: fc.double({ min: 0, max: 400, noNaN: true }),
    height: fc.integer({ min: 10, max: 40 }),
  });
  fc.assert(
    fc.property(fc.array(label, { minLength: 1, maxLength: 8 }), (drawn) => {
      const wanted = drawn.toSorted((a, b) => a.at - b.at);
      const middles = settleLabels(wanted, 0, 400);
      const off = (shift: (index: number) => number): number =>
        wanted.reduce((sum, { at }, index) => sum + ((middles[index] ?? 0) + shift(index) - at) ** 2, 0);
      const half = (index: number): number => (wanted[index]?.height ?? 0) / 2;
      expect((middles[0] ?? 0) - half(0)).toBeGreaterThanOrEqual(-1e-9);
      expect((middles.at(-1) ?? 0) + half(wanted.length - 1)).toBeLessThanOrEqual(400 + 1e-9);
      for (const [index, middle] of middles.entries()) {
        const before = index === 0 ? 0 : (middles[index - 1] ?? 0) + half(index - 1);
        const gap = middle - half(index) - before;
        expect(gap).toBeGreaterThanOrEqual(-1e-9);
        const up = Math.min(gap, 1) / 2;
        expect(off((one) => (one >= index ? -up : 0))).toBeGreaterThanOrEqual(off(() => 0) - 1e-6);
      }
    }),
  );
});

test('a name of a line stands nearest to its own line, or every name has a leader from its line, and none crosses', () => {
  const plot = { left: 60, right: 500, top: 30, bottom: 260 };
  const line = fc.record({
    at: fc.double({ min: 30, max: 260, noNaN: true }),
    isLong: fc.boolean(),
  });
  fc.assert(
    fc.property(
      fc.array(line, { minLength: 1, maxLength: 5 }),
      fc.integer({ min: 12, max: 14 }),
      (drawn, em) => {
        const lines = drawn
          .toSorted((a, b) => a.at - b.at)
          .map(({ at, isLong }) => ({
            at,
            lines: isLong ? ['centre', '61.2 %'] : ['limit'],
            strong: isLong,
          }));
        const { ends, leaders } = nameLines(lines, plot, { width: 600, em });
        const own = lines.flatMap(({ at, lines: words }) => words.map(() => at));
        expect(ends).toHaveLength(own.length);
        if (leaders.length === 0) {
          for (const [index, { y, x }] of ends.entries()) {
            const away = lines.map(({ at }) => Math.abs(at - y));
            expect(Math.min(...away)).toBe(Math.abs((own[index] ?? NaN) - y));
            expect(x).toBeGreaterThan(plot.right);
          }
          return;
        }
        expect(leaders.map(({ fromY }) => fromY)).toEqual(lines.map(({ at }) => at));
        for (const [index, { toX, toY }] of leaders.entries()) {
          const { words = 0, before = 0 } = {
            words: lines[index]?.lines.length,
            before: lines.slice(0, index).reduce((sum, one) => sum + one.lines.length, 0),
          };
          const mine = ends.slice(before, before + words);
          expect(toY).toBeCloseTo(mine.reduce((sum, { y }) => sum + y, 0) / words, 6);
          for (const { x } of mine) expect(toX).toBeLessThan(x);
          expect(toY).toBeGreaterThan(leaders[index - 1]?.toY ?? -Infinity);
        }
      },
    ),
  );
});

test('lines far apart are named beside their ends without leaders, and a line outside the plot is not named', () => {
  const plot = { left: 60, right: 500, top: 30, bottom: 260 };
  const names = [40, 120, 230, 270].map((at) => ({ at, lines: ['limit'], strong: false }));
  const { ends, leaders } = nameLines(names, plot, { width: 600, em: 13 });
  expect(ends.map(({ y }) => y)).toEqual([40, 120, 230]);
  expect(leaders).toEqual([]);
});

test('words are wrapped in lines that fit, lose no word where four lines are enough, and say where they are cut', () => {
  fc.assert(
    fc.property(titles, fc.integer({ min: 60, max: 700 }), (title, width) => {
      const lines = wrapWords(title, width, 13);
      expect(lines.length).toBeLessThanOrEqual(4);
      for (const line of lines) expect(textWidth(line, 13, 'sans')).toBeLessThanOrEqual(width);
      if (lines.join(' ') !== title) expect(lines.join(' ')).toContain('…');
    }),
  );
  expect(wrapWords('Cracked joint at the connector', 2000, 13)).toEqual(['Cracked joint at the connector']);
});

test('an axis of shares is cut only where everything lies in its upper half, and always below it', () => {
  expect(shareStart(0.499)).toBe(0);
  expect(shareStart(0)).toBe(0);
  expect(shareStart(1)).toBe(0.9);
  fc.assert(
    fc.property(fc.double({ min: 0.5, max: 1, noNaN: true }), (lowest) => {
      expect(shareStart(lowest)).toBeLessThan(lowest);
      expect(shareStart(lowest)).toBeGreaterThanOrEqual(0.4);
    }),
  );
});

test('marks along an axis lie on it from end to end with their words apart', () => {
  fc.assert(
    fc.property(rooms, fc.integer({ min: 1, max: 1_000_000 }), ({ width, em }, largest) => {
      const end = axisEnd(largest);
      expect(end).toBeGreaterThanOrEqual(largest);
      const ticks = ticksAlong([0, end], [40, width - 40], String, em);
      expectApart(ticks, em);
      expect(ticks[0]).toMatchObject({ at: 40, words: '0' });
      for (const { at } of ticks) expect(at).toBeLessThanOrEqual(width - 40 + 1e-9);
    }),
  );
});

test('months and years under a chart do not run into each other, however narrow the months', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 300 }),
      fc.double({ min: 1, max: 80, noNaN: true }),
      fc.integer({ min: 1, max: 12 }),
      (count, step, month) => {
        const ticks = monthTicks(`2021-${String(month).padStart(2, '0')}`, count, 40, step, 13);
        expectApart(ticks.months, 13);
        expectApart(ticks.years, 13);
      },
    ),
  );
  expect(monthTicks('2025-11', 3, 0, 60, 13).months.map(({ words }) => words)).toEqual(['Nov', 'Dec', 'Jan']);
  expect(monthTicks('2025-11', 3, 0, 60, 13).years.map(({ words }) => words)).toEqual(['2025', '2026']);
  expect(monthWords('2026-03')).toBe('Mar 2026');
});

test('names of marks stand apart and within the drawing, each leading to its mark', () => {
  const at = fc.double({ min: 100, max: 300, noNaN: true });
  fc.assert(
    fc.property(at, at, (first, second) => {
      const room = { width: 352, em: 13 };
      const [a, b] = nameMarks(
        [
          { at: first, words: 'median' },
          { at: second, words: 'tree expects' },
        ],
        10,
        room,
      );
      const half = (words = ''): number => textWidth(words, 13, 'sans') / 2;
      expect((b?.x ?? 0) - (a?.x ?? 0)).toBeGreaterThanOrEqual(half(a?.words) + half(b?.words));
      expect((b?.x ?? 0) + half(b?.words)).toBeLessThanOrEqual(352);
      expect(a?.to).toBe(Math.min(first, second));
    }),
  );
});
