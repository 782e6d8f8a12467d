import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { hashOf, routeOf, withQuery } from '../../app/shell/route.svelte.ts';

describe('the address', () => {
  it('gives area and rest', () => {
    expect(routeOf('#/bench/jobs/A/B')).toEqual({ area: 'bench', rest: ['jobs', 'A', 'B'], query: {} });
    expect(routeOf('')).toEqual({ area: '', rest: [], query: {} });
  });

  it('reads back whatever parts it was made of', () => {
    const part = fc.string({ unit: 'grapheme', minLength: 1 });
    fc.assert(
      fc.property(part, fc.array(part), (area, rest) => {
        expect(routeOf(hashOf(area, ...rest))).toEqual({ area, rest, query: {} });
      }),
    );
  });

  it('reads back whatever query it was given, without what is null', () => {
    const part = fc.string({ unit: 'grapheme', minLength: 1 });
    const query = fc.dictionary(part, fc.string({ unit: 'grapheme' }));
    fc.assert(
      fc.property(part, fc.array(part), query, (area, rest, asked) => {
        const hash = withQuery(hashOf(area, ...rest), { ...asked, '?left out': null });
        expect(routeOf(hash)).toEqual({ area, rest, query: asked });
      }),
    );
    expect(withQuery('#/review', { tree: null })).toBe('#/review');
    expect(withQuery('#/review', { board: '', jobs: 'month:2026-03' })).toBe(
      '#/review?board=&jobs=month:2026-03',
    );
  });

  it('keeps a part that is not sound percent-encoding', () => {
    expect(routeOf('#/bench/%zz').rest).toEqual(['%zz']);
  });
});
