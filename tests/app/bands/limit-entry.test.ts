import { describe, expect, it } from 'vitest';
import { bandsOf, deskOf } from './desk-of.ts';

describe('a limit typed', () => {
  it('is taken as the trade writes it, for both bands that share it', () => {
    const { told, field } = deskOf();
    const entry = field('good', 'from');
    expect(entry.shown).toBe('4.75 V');
    entry.type('4V6');
    expect(told).toEqual([]);
    entry.take();
    expect(bandsOf(told[0]?.results)).toEqual([{ from: 4.6, to: 5.25 }, { to: 4.6 }, { from: 5.25 }]);
    expect(told[0]?.what).toBe('Set where In limits begins to 4.6 V');
    expect(entry.shown).toBe('4.6 V');
  });

  it('emptied leaves that one band open', () => {
    const { desk, told, field } = deskOf();
    const entry = field('low', 'to');
    entry.type('  ');
    entry.take();
    expect(bandsOf(told[0]?.results)[1]).toEqual({});
    expect(desk.layout.faults.map(({ kind }) => kind)).toEqual(['overlap', 'overlap']);
  });

  it('that is none stays in its field with why, and changes nothing', () => {
    const { told, field } = deskOf();
    const entry = field('good', 'from');
    entry.type('five');
    entry.take();
    expect(entry.wrong).toMatch(/not a number/);
    expect(entry.shown).toBe('five');
    expect(told).toEqual([]);
    entry.drop();
    expect([entry.shown, entry.wrong]).toEqual(['4.75 V', undefined]);
  });

  it('left as it was is no change', () => {
    const { told, field } = deskOf();
    const entry = field('good', 'from');
    entry.type('4750m');
    entry.take();
    entry.take();
    expect(told).toEqual([]);
  });

  it('is a ratio without a unit where the bands are ratios', () => {
    const { desk, told, field } = deskOf('rail-far', []);
    expect([desk.unit, desk.reference]).toEqual([null, 'rail-in']);
    const entry = field('drop', 'to');
    expect(entry.shown).toBe('0.96');
    entry.type('95 %');
    entry.take();
    expect(bandsOf(told[0]?.results)).toEqual([
      { from: 0.95, of: 'rail-in' },
      { to: 0.95, of: 'rail-in' },
    ]);
  });
});
