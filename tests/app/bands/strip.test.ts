import { describe, expect, it } from 'vitest';
import { scaleFor } from '../../../app/editor/bands/scale.ts';
import { findingTitle, stripOf } from '../../../app/editor/bands/strip.ts';
import { expectedOf, type RecordedReading } from '../../../trees/limits/index.ts';
import { smallTree } from '../../support/trees.ts';

const tree = smallTree();
const accuracy = { percent: 0.5, constant: 0.005 };

function readings(finding: string, values: readonly (number | 'OL')[]): RecordedReading[] {
  return values.map((value) => ({ value, reference: null, accuracy, result: 'good', finding }));
}

function stripFor(test: string, recorded: readonly RecordedReading[], columns = 40) {
  const tested = tree.tests[test];
  if (tested === undefined) throw new Error(test);
  return stripOf(tested, expectedOf(tree, test), recorded, scaleFor([4.75, 5.25], []), columns);
}

describe('the strip plot of readings', () => {
  const strip = stripFor('rail-in', [
    ...readings('capacitor-short', [0, 0.1]),
    ...readings('panel-dead', [5, 5.01, 4.7, 'OL']),
    ...readings('converter-low', [4.6, 4.62, 4.9]),
  ]);

  it('has a row for each finding, lowest first, and those that say nothing of the test last', () => {
    expect(strip.rows.map(({ finding }) => finding)).toEqual([
      'converter-low',
      'panel-dead',
      'capacitor-short',
    ]);
  });

  it('tells readings in the band their finding makes likeliest from others, and from those it says nothing of', () => {
    expect(strip.rows.map(({ counts }) => counts)).toEqual([
      { fits: 2, strays: 1, unsaid: 0 },
      { fits: 2, strays: 2, unsaid: 0 },
      { fits: 0, strays: 0, unsaid: 2 },
    ]);
  });

  it('counts OL apart, and what lies beyond the line', () => {
    expect(strip.rows[1]).toMatchObject({ overloads: { readings: 1, strays: 1 }, least: 4.7, most: 5.01 });
    expect(strip.overloaded).toBe(true);
    expect(strip.beyond).toBe(2);
  });

  it('draws every reading as a mark of its own while there are few, none over another', () => {
    const dots = strip.rows.flatMap((row) => row.dots);
    expect(strip.each).toBe(1);
    expect(dots).toHaveLength(8);
    for (const { dots: own } of strip.rows) {
      expect(new Set(own.map(({ column, level }) => `${String(column)} ${String(level)}`)).size).toBe(
        own.length,
      );
    }
  });

  it('lets a mark stand for several where they pile up, and says for how many', () => {
    const many = stripFor('rail-in', readings('panel-dead', Array<number>(100).fill(5)));
    expect(many.each).toBe(17);
    expect(many.rows[0]?.dots).toHaveLength(6);
  });

  it('leaves out ratios without their earlier reading, and counts them', () => {
    const ratio = stripFor('rail-far', [
      ...readings('panel-dead', [5]),
      { value: 5, reference: 5, accuracy, result: 'good', finding: 'panel-dead' },
    ]);
    expect(ratio.unplaced).toBe(1);
    expect(ratio.rows[0]?.readings).toBe(1);
  });

  it('names a finding by its title, and one that is gone by its id', () => {
    expect(findingTitle(tree, 'panel-dead')).toBe('Panel dead');
    expect(findingTitle(tree, 'long-gone')).toBe('long-gone');
    expect(findingTitle(tree, 'unlisted')).toBe('Not in this tree');
  });
});
