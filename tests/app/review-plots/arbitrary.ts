import fc from 'fast-check';
import type { MonthPoint } from '../../../trees/review/index.ts';
import type { Room } from '../../../app/review/plots/room.ts';
import { controlPoint, kaplanMeier } from '../../../trees/statistics/index.ts';

/** From a narrow column on a small type to a wide window on a large one. */
export const rooms: fc.Arbitrary<Room> = fc.record({
  width: fc.integer({ min: 352, max: 1900 }),
  em: fc.integer({ min: 12, max: 20 }),
});

/** Months in their order, with gaps. */
export const months: fc.Arbitrary<readonly MonthPoint[]> = fc
  .array(
    fc.record({
      closed: fc.integer({ min: 1, max: 400 }),
      share: fc.double({ min: 0, max: 1, noNaN: true }),
      gap: fc.boolean(),
    }),
    {
      minLength: 1,
      maxLength: 72,
    },
  )
  .map((drawn) => {
    let number = 2019 * 12 + 5;
    return drawn.map(({ closed, share, gap }, index): MonthPoint => {
      number += gap ? 2 : 1;
      const fixed = Math.round(closed * share);
      const month = `${String(Math.floor(number / 12))}-${String((number % 12) + 1).padStart(2, '0')}`;
      const provisional = index >= drawn.length - 2;
      const control = controlPoint(0.8, { count: fixed, of: closed });
      return {
        month,
        closed,
        fixed,
        ...control,
        outOfControl: control.outOfControl && (!provisional || control.rate < control.low),
        provisional,
      };
    });
  });

/** Units back and lost by day, as a curve. */
export const curves = fc
  .array(fc.tuple(fc.integer({ min: 0, max: 3 }), fc.integer({ min: 0, max: 5 })), {
    minLength: 1,
    maxLength: 181,
  })
  .map((days) =>
    kaplanMeier([0, ...days.map(([back]) => back)], [1, ...days.map(([, lost]) => lost)], [0, 90]).map(
      ({ events, ...point }) => ({ ...point, back: events }),
    ),
  );

export const titles = fc
  .array(
    fc.constantFrom(
      'Cracked',
      'joint',
      'at',
      'the',
      'display',
      'connector',
      'regulator',
      'electrolyticcapacitorbank',
    ),
    {
      minLength: 1,
      maxLength: 14,
    },
  )
  .map((words) => words.join(' '));
