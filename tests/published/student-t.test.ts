import { describe, expect, it } from 'vitest';
import { studentQuantile } from '../../trees/statistics/index.ts';
import published from './values/student-t.json' with { type: 'json' };

describe('Student’s t', () => {
  it.each(published.rows)(
    'is the printed one to its three decimals with $degrees degrees of freedom',
    ({ degrees, within95, within99 }) => {
      expect(Math.abs(studentQuantile(degrees, 0.95) - within95)).toBeLessThanOrEqual(0.0005 + 1e-9);
      expect(Math.abs(studentQuantile(degrees, 0.99) - within99)).toBeLessThanOrEqual(0.0005 + 1e-9);
    },
  );

  it('holds the share asked for by the finite series for whole degrees (Abramowitz & Stegun 26.7.3 and 26.7.4), to 1e-8', () => {
    for (const degrees of [1, 2, 3, 8, 17, 120, 999])
      for (const within of [0.5, 0.95, 0.998])
        expect(Math.abs(shareWithin(studentQuantile(degrees, within), degrees) - within)).toBeLessThan(1e-8);
  });

  it('lies between those of the whole degrees beside it, where they are broken', () => {
    for (const degrees of [1.5, 4.2, 60.9]) {
      const [less, more] = [Math.floor(degrees), Math.ceil(degrees)];
      expect(studentQuantile(degrees, 0.95)).toBeLessThan(studentQuantile(less, 0.95));
      expect(studentQuantile(degrees, 0.95)).toBeGreaterThan(studentQuantile(more, 0.95));
    }
  });

  it('is the normal distribution’s with a million degrees, to 1e-5', () => {
    expect(Math.abs(studentQuantile(1e6, 0.95) - 1.959963984540054)).toBeLessThan(1e-5);
  });

  it('falls with every degree of freedom towards the normal distribution’s 1.9600 (to 0.005 at 499)', () => {
    const all = Array.from({ length: 499 }, (_, index) => studentQuantile(index + 1, 0.95));
    all.slice(1).forEach((t, index) => expect(t).toBeLessThan(all[index] ?? 0));
    expect(Math.abs((all.at(-1) ?? 0) - 1.96)).toBeLessThan(0.005);
  });
});

/** The share of the distribution between -t and t. */
function shareWithin(t: number, degrees: number): number {
  const angle = Math.atan(t / Math.sqrt(degrees));
  if (degrees === 1) return (2 * angle) / Math.PI;
  const cosine = Math.cos(angle);
  const isOdd = degrees % 2 === 1;
  let term = isOdd ? cosine : 1;
  let sum = term;
  for (let power = isOdd ? 3 : 2; power <= degrees - 2; power += 2) {
    term *= ((power - 1) / power) * cosine * cosine;
    sum += term;
  }
  return isOdd ? (2 / Math.PI) * (angle + Math.sin(angle) * sum) : Math.sin(angle) * sum;
}
