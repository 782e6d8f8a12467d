import { describe, expect, it } from 'vitest';
import { studentQuantile } from '../../trees/replay/student.ts';
import published from './values/student-t.json' with { type: 'json' };

describe('Student’s t', () => {
  it.each(published.rows)(
    'is the printed one to its three decimals with $degrees degrees of freedom',
    ({ degrees, within95, within99 }) => {
      expect(Math.abs(studentQuantile(degrees, 0.95) - within95)).toBeLessThanOrEqual(0.0005 + 1e-9);
      expect(Math.abs(studentQuantile(degrees, 0.99) - within99)).toBeLessThanOrEqual(0.0005 + 1e-9);
    },
  );

  it('falls with every degree of freedom towards the normal distribution’s 1.9600 (to 0.005 at 499)', () => {
    const all = Array.from({ length: 499 }, (_, index) => studentQuantile(index + 1, 0.95));
    all.slice(1).forEach((t, index) => expect(t).toBeLessThan(all[index] ?? 0));
    expect(Math.abs((all.at(-1) ?? 0) - 1.96)).toBeLessThan(0.005);
  });
});
