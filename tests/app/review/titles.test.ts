import { describe, expect, it } from 'vitest';
import { NO_NAMES, treeBeside, treeMark } from '../../../app/review/words/titles.ts';
import { lengthWords, minuteFigure, rangeWords } from '../../../app/review/words/figures.ts';

const named = (trees: Record<string, string>) => ({ ...NO_NAMES, trees });

describe('what tells a tree from the others', () => {
  it('is its title without the words that all begin with', () => {
    const names = named({ a: 'Kittiwake KW-1, refitted panel', b: 'Kittiwake KW-1, USB-C charging board' });
    expect(treeMark(names, 'a')).toBe('refitted panel');
    expect(treeMark(names, 'b')).toBe('USB-C charging board');
  });

  it('is its whole title where they share no words, where it is alone, and where nothing else would be left', () => {
    expect(treeMark(named({ a: 'Dunlin', b: 'Kittiwake' }), 'a')).toBe('Dunlin');
    expect(treeMark(named({ a: 'Kittiwake KW-1' }), 'a')).toBe('Kittiwake KW-1');
    expect(treeMark(named({ a: 'Kittiwake', b: 'Kittiwake two' }), 'a')).toBe('Kittiwake');
    expect(treeMark(named({ a: 'Kittiwake', b: 'Kittiwake two' }), 'gone')).toBe('gone');
  });
});

describe('a tree beside its parts', () => {
  const names = named({ a: 'Handheld Kittiwake KW-1', b: 'Handheld Dunlin DN-20' });

  it('is told by what tells it from the others, and only where a review is of several', () => {
    expect(treeBeside(names, { byTree: ['a', 'b'] }, 'b')).toBe('Dunlin DN-20');
    expect(treeBeside(names, { byTree: ['b'] }, 'b')).toBe('');
    expect(treeBeside(names, { byTree: ['a', 'b'] }, null)).toBe('');
  });
});

describe('figures in words', () => {
  it('give an interval a decimal where its ends would look alike', () => {
    expect(rangeWords(0.784, 0.853)).toBe('78 to 85\u202f%');
    expect(rangeWords(0.016, 0.022)).toBe('1.6 to 2.2\u202f%');
    expect(rangeWords(0, 1)).toBe('0 to 100\u202f%');
  });

  it('set what is below nothing with a minus sign, to as many figures as what is above it', () => {
    expect(minuteFigure(-226.4)).toBe('\u2212226');
    expect(minuteFigure(-2.26)).toBe('\u22122.3');
    expect(lengthWords(-240)).toBe('\u22124 h');
    expect(lengthWords(119.6)).toBe('120 min');
    expect(lengthWords(9.96)).toBe('10 min');
  });
});
