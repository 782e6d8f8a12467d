import { describe, expect, it } from 'vitest';
import { againstTree, longerWords, meanWords } from '../../../app/review/words/hours-words.ts';
import type { SymptomMinutes } from '../../../trees/review/index.ts';

function minutes(jobs: number, expected: number | null, more: Partial<SymptomMinutes> = {}): SymptomMinutes {
  const spread = { jobs, mean: 15, lower: 7, median: 13, upper: 17, error: 0.8 };
  return {
    ...{ tree: 'gull', symptom: 'dark', toFinding: spread, toProof: null },
    ...{ expected: expected === null ? null : { toFinding: expected, toProof: 40 } },
    ...{ meanToFinding: { low: 13, high: 17 }, ...more },
  };
}

describe('how long a symptom takes against its tree', () => {
  it('is the mean against the mean that the tree expects, in the bounds of chance', () => {
    expect(againstTree(minutes(161, 8.9))).toBe('longer');
    expect(againstTree(minutes(161, 13.5))).toBe('no more than chance');
    expect(againstTree(minutes(161, 17.5))).toBe('shorter');
  });

  it('is not told of fewer jobs than mean something, nor where nothing is expected', () => {
    expect(againstTree(minutes(19, 8.9))).toBe('from 20 jobs on');
    expect(againstTree(minutes(161, null))).toBe('not known');
    expect(againstTree(minutes(1, 8.9, { meanToFinding: null }))).toBe('not known');
  });

  it('is summed up over those with jobs enough, and never called nothing where none could be judged', () => {
    const longer = (...all: readonly SymptomMinutes[]): string => longerWords({ minutes: all });
    expect(longer(minutes(161, 8.9), minutes(40, 14), minutes(3, 1))).toBe(
      'On average 1 of 2 symptoms with jobs enough takes longer than the tree expects, by more than chance.',
    );
    expect(longer(minutes(40, 14))).toContain('none of 1 symptom with jobs enough takes longer');
    expect(longer(minutes(3, 1))).toContain('cannot be said yet');
    expect(longer(minutes(161, null))).toBe('');
  });

  it('has the mean with its interval, whose lower end is never below none', () => {
    expect(meanWords(15, { low: 12.6, high: 17.4 })).toBe('15 (13 to 17)');
    expect(meanWords(3, { low: -1, high: 7 })).toBe('3.0 (0.0 to 7.0)');
    expect(meanWords(3, null)).toBe('3.0');
  });
});
