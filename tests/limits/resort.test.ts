import { describe, expect, it } from 'vitest';
import { addToHistory, NO_HISTORY } from '../../trees/belief/index.ts';
import type { Tree } from '../../trees/document/index.ts';
import {
  layoutBands,
  resorting,
  setLimit,
  type Limit,
  withoutResult,
  type RecordedReading,
} from '../../trees/limits/index.ts';
import { smallTree } from '../support/trees.ts';

const tree = smallTree();

function readings(finding: string, result: string, values: readonly (number | 'OL')[]): RecordedReading[] {
  const accuracy = { percent: 0.5, constant: 0.005 };
  return values.map((value) => ({ value, reference: null, accuracy, result, finding }));
}

const RECORDED = [
  ...readings('converter-low', 'low', [4.2, 4.5, 4.7, 4.72]),
  ...readings('panel-dead', 'good', [4.8, 4.9, 5, 5.1]),
  ...readings('converter-high', 'high', [5.3, 'OL']),
  ...readings('unlisted', 'good', [4.76]),
];

function limitOf(index: number) {
  const limit = layoutBands(tree.tests['rail-in']?.results ?? {}).limits[index];
  if (limit === undefined) throw new Error('no limit');
  return limit;
}

/** What a limit moved to another place would have changed. */
function movedLimit(of: Tree, test: string, limit: Limit, to: number, recorded: readonly RecordedReading[]) {
  return resorting(of, test, setLimit(of.tests[test]?.results ?? {}, limit, to), recorded);
}

describe('a limit that would be moved', () => {
  it('says how many readings of which findings would sort otherwise, and from where to where', () => {
    const told = movedLimit(tree, 'rail-in', limitOf(0), 4.6, RECORDED);
    expect(told.readings).toBe(10);
    expect(told.moved).toEqual([{ finding: 'converter-low', from: 'low', to: 'good', readings: 2 }]);
  });

  it('says whether more readings would be in the band that their finding makes likeliest', () => {
    const worse = movedLimit(tree, 'rail-in', limitOf(0), 4.6, RECORDED).fitting;
    expect([worse.before.count, worse.before.of, worse.after.count]).toEqual([10, 10, 8]);
    const shifted = movedLimit(tree, 'rail-in', limitOf(1), 5.05, RECORDED).fitting;
    expect([shifted.after.count, shifted.after.of]).toEqual([9, 10]);
  });

  it('leaves OL where it is, above every limit', () => {
    expect(movedLimit(tree, 'rail-in', limitOf(1), 1e12, RECORDED).moved).toEqual([
      { finding: 'converter-high', from: 'high', to: 'good', readings: 1 },
    ]);
  });

  it('moves nothing where it stays', () => {
    const told = movedLimit(tree, 'rail-in', limitOf(0), 4.75, RECORDED);
    expect(told.moved).toEqual([]);
    expect(told.counts.after).toEqual(told.counts.before);
    expect(told.fitting.after).toEqual(told.fitting.before);
  });

  it('counts as history does, without causes outside the tree and results that are gone', () => {
    const { counts } = movedLimit(tree, 'rail-in', limitOf(0), 4.6, RECORDED);
    const history = RECORDED.filter(({ finding }) => finding !== 'unlisted').reduce(
      (sum, { finding, result, value }) => {
        const moved = value !== 'OL' && value >= 4.6 && value < 4.75 ? 'good' : result;
        const confirmed = { symptom: 'dark-screen', finding };
        const results = [{ test: 'rail-in', result: moved }];
        return addToHistory(sum, { confirmed, results, remedies: [] }, 1);
      },
      NO_HISTORY,
    );
    expect(counts.after).toEqual(history.results['rail-in']);
    const lost = withoutResult(tree.tests['rail-in']?.results ?? {}, 'high');
    expect(resorting(tree, 'rail-in', lost, RECORDED).counts.after).toEqual({
      'converter-low': { low: 4 },
      'panel-dead': { good: 4 },
      // 5.3 V is in no band now and was high, which is gone; OL is in the band that is topmost now.
      'converter-high': { good: 1 },
    });
  });

  it('keeps a ratio reading as it was recorded where its earlier reading is wanting', () => {
    const [limit] = layoutBands(tree.tests['rail-far']?.results ?? {}).limits;
    if (limit === undefined) throw new Error('no limit');
    const accuracy = { percent: 0.5, constant: 0.005 };
    const one = { value: 4.7, accuracy, result: 'drop', finding: 'joint-open' };
    const recorded = [
      { ...one, reference: 5 },
      { ...one, reference: null },
    ];
    expect(movedLimit(tree, 'rail-far', limit, 0.9, recorded).moved).toEqual([
      { finding: 'joint-open', from: 'drop', to: 'good', readings: 1 },
    ]);
  });
});
