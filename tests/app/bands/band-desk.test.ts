import { describe, expect, it } from 'vitest';
import {
  behindWords,
  faultWords,
  fittingWords,
  limitTitle,
  missingWords,
  movedWords,
} from '../../../app/editor/bands/band-words.ts';
import { layoutBands } from '../../../trees/limits/index.ts';
import { smallTree } from '../../support/trees.ts';
import { bandsOf, deskOf, readings, RECORDED } from './desk-of.ts';

describe('a limit on the number line', () => {
  it('moves with the pointer, and is one change when it is let go of', () => {
    const { desk, told } = deskOf();
    desk.drag(0, desk.scale.place(4.6));
    desk.drag(0, desk.scale.place(4.55));
    expect(bandsOf(desk.results)[1]).toEqual({ to: 4.55 });
    expect(told).toEqual([]);
    desk.drop();
    expect(told.map(({ what }) => what)).toEqual(['Move limit between Low and In limits to 4.55 V']);
    expect(bandsOf(told[0]?.results)).toEqual([{ from: 4.55, to: 5.25 }, { to: 4.55 }, { from: 5.25 }]);
    expect(desk.dragged).toBeNull();
  });

  it('keeps the line as it is while it is dragged, and stops short of its neighbour', () => {
    const { desk } = deskOf();
    const { low, high } = desk.scale;
    desk.drag(0, 1);
    expect(desk.layout.limits[0]?.at).toBeLessThan(5.25);
    expect([desk.scale.low, desk.scale.high]).toEqual([low, high]);
    expect(desk.layout.faults).toEqual([]);
  });

  it('goes back where it was when it is not let go of', () => {
    const { desk, told } = deskOf();
    desk.drag(0, desk.scale.place(4.6));
    desk.forget();
    desk.drop();
    expect(told).toEqual([]);
    expect(desk.results).toBe(desk.authored);
  });

  it('moves by keys, all presses on one limit being one to undo', () => {
    const { desk, told } = deskOf();
    expect(desk.key(1, { key: 'ArrowRight', shiftKey: false })).toBe(true);
    expect(desk.key(1, { key: 'ArrowRight', shiftKey: false })).toBe(true);
    expect(desk.key(1, { key: 'x', shiftKey: false })).toBe(false);
    expect(told).toHaveLength(2);
    expect(new Set(told.map(({ joins }) => joins)).size).toBe(1);
    expect(told[0]?.joins).not.toBe(undefined);
    expect(new Set(told.map(({ what }) => what))).toEqual(new Set(['Move limit between In limits and High']));
    expect(desk.layout.limits[1]?.at).toBeGreaterThan(5.25);
  });

  it('does not move where the tree is only read', () => {
    const { desk, told } = deskOf('rail-in', RECORDED, { readonly: true });
    desk.drag(0, 0.1);
    desk.drop();
    expect(desk.key(0, { key: 'ArrowUp', shiftKey: false })).toBe(true);
    expect(told).toEqual([]);
  });
});

describe('what the readings say beside the line', () => {
  it('is of the limit that would be better elsewhere, until another is chosen', () => {
    const { desk } = deskOf();
    expect(desk.chosen).toMatchObject({ below: 'low', above: 'good', suggestion: { kind: 'move' } });
    desk.choose({ ends: ['good'], starts: ['high'] });
    expect(desk.chosen).toMatchObject({ below: 'good', above: 'high', suggestion: { kind: 'too-few' } });
  });

  it('says what the suggestion would change, and nothing is left to suggest once it is taken', () => {
    const { desk, told } = deskOf();
    const limit = desk.limitBetween('low', 'good');
    const { chosen } = desk;
    if (limit === null || chosen?.suggestion.kind !== 'move') throw new Error('no suggestion');
    const { best } = chosen.suggestion;
    const words = movedWords(desk.tree, desk.results, desk.ifMoved(limit, best.limit));
    expect(words).toBe('1 of 17 readings would sort otherwise: 1 of Rail joint open from Low to In limits.');
    desk.move(limit, best.limit);
    expect(told).toHaveLength(1);
    expect(desk.chosen?.suggestion.kind).toBe('stay');
  });

  it('says against the published bands what the draft’s change, and while dragging against the draft’s', () => {
    const { desk } = deskOf();
    expect(desk.changed).toBeNull();
    const limit = desk.limitBetween('low', 'good');
    if (limit === null) throw new Error('no limit');
    desk.move(limit, 4.46);
    expect(desk.changed?.moved.map(({ finding, readings: count }) => [finding, count])).toEqual([
      ['converter-low', 2],
      ['joint-open', 1],
    ]);
    expect(desk.changed && fittingWords(desk.changed)).toBe(
      'Fewer would lie in the band that their finding makes likeliest: 15 of 17 (88\u202f%), 16 of 17 (94\u202f%) now.',
    );
    desk.drag(0, desk.scale.place(4.46));
    expect(desk.dragged).toBeNull();
    desk.drag(0, desk.scale.place(4.75));
    expect(desk.changed?.moved.map(({ from, to }) => [from, to])).toContainEqual(['good', 'low']);
  });

  it('closes a gap between two bands when it moves their limit', () => {
    const { desk, field } = deskOf();
    const limit = { at: 0, ends: ['low'], starts: [] };
    desk.move(limit, 4.4);
    expect(desk.layout.faults.map((fault) => faultWords(desk.results, fault, desk.unit))).toEqual([
      'Gap: no result for a reading from 4.4 V to 4.75 V.',
    ]);
    expect(field('good', 'from').shown).toBe('4.75 V');
    const both = desk.limitBetween('low', 'good');
    if (both === null) throw new Error('no limit');
    desk.move(both, 4.6);
    expect(desk.layout.faults).toEqual([]);
  });

  it('says how many readings are wanting, and how many are left out', () => {
    const { desk } = deskOf('rail-in', readings('unlisted', 'good', [5]));
    if (desk.chosen === null) throw new Error('nothing chosen');
    expect(missingWords(desk.results, desk.chosen)).toBe(
      'Too few for a suggestion: still wanting are 8 readings of findings that expect Low and 8 readings of findings that expect In limits.',
    );
    expect(behindWords(desk.results, desk.chosen)).toMatch(/; 1 left out/);
  });

  it('is drawn on no line where the bands are ratios to different readings', () => {
    const { desk, told } = deskOf('rail-far', []);
    desk.change({ ...desk.authored, good: { title: 'No drop', band: { from: 0.96 } } }, 'Mix');
    expect(told).toHaveLength(1);
    expect(desk.drawable).toBe(false);
  });
});

describe('the words of a limit', () => {
  it('name what it divides, or where one band alone ends or begins', () => {
    const results = smallTree().tests['rail-in']?.results ?? {};
    const limits = layoutBands({ ...results, low: { title: '', band: { to: 4.4 } } }).limits;
    expect(limits.map((limit) => limitTitle(results, limit))).toEqual([
      'Where Low ends',
      'Where In limits begins',
      'Limit between In limits and High',
    ]);
    expect(limitTitle({ ...results, low: { title: '' } }, { at: 1, ends: ['low'], starts: [] })).toBe(
      'Where low ends',
    );
  });
});
