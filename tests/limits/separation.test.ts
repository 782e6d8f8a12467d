import { describe, expect, it } from 'vitest';
import { separationsOf, type RecordedReading } from '../../trees/limits/index.ts';
import { smallDocument, smallTree, treeOf } from '../support/trees.ts';

const tree = smallTree();
const accuracy = { percent: 0.5, constant: 0.005 };

/** So many readings, evenly from one value to another. */
function spread(
  finding: string,
  result: string,
  [from, to]: readonly [number, number],
  count: number,
  reference: number | null = null,
): RecordedReading[] {
  return Array.from({ length: count }, (_, index) => ({
    value: from + ((to - from) * index) / (count - 1),
    reference,
    accuracy,
    result,
    finding,
  }));
}

const RAIL = [
  ...spread('converter-low', 'low', [3.9, 4.5], 10),
  ...spread('panel-dead', 'good', [4.7, 5.1], 9),
  ...spread('joint-open', 'good', [4.8, 5], 3),
  ...spread('converter-high', 'high', [5.4, 6], 4),
  ...spread('capacitor-short', 'low', [0, 0.1], 5),
  ...spread('unlisted', 'good', [4.9, 5], 2),
];

describe('the limits of a test with readings behind it', () => {
  it('each separate the findings that expect the band above from those that expect the band below', () => {
    const [low, high] = separationsOf(tree, 'rail-in', RAIL);
    expect(low).toMatchObject({ below: 'low', above: 'good', at: 4.75 });
    expect(low?.negatives).toEqual([{ finding: 'converter-low', readings: 10 }]);
    expect(low?.positives).toEqual([
      { finding: 'panel-dead', readings: 9 },
      { finding: 'joint-open', readings: 3 },
    ]);
    expect(high?.positives).toEqual([{ finding: 'converter-high', readings: 4 }]);
  });

  it('leave out, and count, readings of findings that could be either or that nothing is said of', () => {
    const [low] = separationsOf(tree, 'rail-in', RAIL);
    expect(low?.either).toEqual([
      { finding: 'capacitor-short', readings: 5 },
      { finding: 'unlisted', readings: 2 },
    ]);
    const document = smallDocument();
    const undecided = document.findings['converter-low'];
    if (undecided) undecided.expects = { 'rail-in': { low: 0.6, good: 0.4 } };
    const [either] = separationsOf(treeOf(document), 'rail-in', RAIL);
    expect(either?.either[0]).toEqual({ finding: 'converter-low', readings: 10 });
    expect(either?.negatives).toEqual([]);
  });

  it('leave out findings that lie on both sides, though only one of the two bands is among what they expect', () => {
    const document = smallDocument();
    const torn = document.findings['converter-low'];
    if (torn) torn.expects = { 'rail-in': { low: 0.5, high: 0.5 } };
    const [low, high] = separationsOf(treeOf(document), 'rail-in', RAIL);
    expect(low?.either[0]).toEqual({ finding: 'converter-low', readings: 10 });
    expect(high?.either[0]).toEqual({ finding: 'converter-low', readings: 10 });
    expect(low?.negatives).toEqual([]);
  });

  it('take a finding to lie below where it expects both lower bands', () => {
    const document = smallDocument();
    const results = {
      good: { title: 'In limits', band: { from: 4.75 } },
      low: { title: 'Low', band: { from: 4.2, to: 4.75 } },
      dead: { title: 'Nothing', band: { to: 4.2 } },
    };
    Object.assign(document.tests['rail-in'] ?? {}, { results });
    const sagging = document.findings['converter-low'];
    if (sagging) sagging.expects = { 'rail-in': { low: 0.5, dead: 0.5 } };
    const [dead, low] = separationsOf(treeOf(document), 'rail-in', RAIL);
    expect(dead?.either[0]).toEqual({ finding: 'converter-low', readings: 10 });
    expect(low?.negatives).toEqual([{ finding: 'converter-low', readings: 10 }]);
  });

  it('are moved where a limit halfway between the kinds has the larger J', () => {
    const [low, high] = separationsOf(tree, 'rail-in', RAIL);
    expect(low?.suggestion).toMatchObject({
      kind: 'move',
      best: { limit: 4.6, youden: 1 },
      present: { limit: 4.75, missed: { count: 1, of: 12 } },
    });
    expect(high?.suggestion).toEqual({ kind: 'too-few', missing: { positives: 4, negatives: 0 } });
  });

  it('follow the authors’ flow where a finding says nothing of the test', () => {
    const document = smallDocument();
    for (const finding of Object.values(document.findings)) finding.expects = {};
    const [low] = separationsOf(treeOf(document), 'rail-in', RAIL);
    expect(low?.negatives).toEqual([{ finding: 'converter-low', readings: 10 }]);
    expect(low?.positives.map(({ finding }) => finding)).toEqual(['panel-dead', 'joint-open']);
  });

  it('are ratios where the bands are, whatever way the rail points; readings without a reference are passed over', () => {
    const readings = [
      ...spread('joint-open', 'drop', [-8, -9], 9, -10),
      ...spread('panel-dead', 'good', [9.7, 10], 9, 10),
      ...spread('panel-dead', 'good', [1, 2], 3, null),
      ...spread('panel-dead', 'good', [1, 2], 3, 0),
    ];
    const [drop] = separationsOf(tree, 'rail-far', readings);
    expect(drop?.positives).toEqual([{ finding: 'panel-dead', readings: 9 }]);
    expect(drop?.suggestion).toMatchObject({ kind: 'stay', present: { limit: 0.96, youden: 1 } });
  });

  it('stand nowhere where two bands do not meet, and are suggested within the room between their neighbours', () => {
    const document = smallDocument();
    const bands = document.tests['rail-in']?.results;
    Object.assign(bands?.['low']?.band ?? {}, { to: 4.4 });
    const [low] = separationsOf(treeOf(document), 'rail-in', RAIL);
    expect(low).toMatchObject({ at: null, room: { present: null, above: -Infinity, below: 5.25 } });
    expect(low?.suggestion).toMatchObject({ kind: 'move', present: null, best: { limit: 4.6 } });
  });

  it('are none where a test is answered by choosing', () => {
    expect(separationsOf(tree, 'border', [])).toEqual([]);
    expect(separationsOf(tree, 'nothing', [])).toEqual([]);
  });
});
