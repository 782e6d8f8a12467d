import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { hashOf, routeOf } from '../../app/shell/route.svelte.ts';

describe('the address', () => {
  it('gives area and rest', () => {
    expect(routeOf('#/bench/jobs/A/B')).toEqual({ area: 'bench', rest: ['jobs', 'A', 'B'] });
    expect(routeOf('')).toEqual({ area: '', rest: [] });
  });

  it('reads back whatever parts it was made of', () => {
    const part = fc.string({ unit: 'grapheme', minLength: 1 });
    fc.assert(
      fc.property(part, fc.array(part), (area, rest) => {
        expect(routeOf(hashOf(area, ...rest))).toEqual({ area, rest });
      }),
    );
  });

  it('keeps a part that is not sound percent-encoding', () => {
    expect(routeOf('#/bench/%zz').rest).toEqual(['%zz']);
  });
});
