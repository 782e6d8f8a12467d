import { expect, it } from 'vitest';
import { othersWords } from '../../app/bench/walk/others-words.ts';
import { nothingWords, searched } from '../../app/parts/searched.ts';

const LINES = ['Sound', 'Power LED, diode test', 'The power LED', 'Power LED'].map((title) => ({ title }));

it('puts what is called exactly so first, then what begins so, and leaves out the rest', () => {
  expect(searched(LINES, ' power led ').map(({ title }) => title)).toEqual([
    'Power LED',
    'Power LED, diode test',
    'The power LED',
  ]);
});

it('keeps the order given while nothing is searched for', () => {
  expect(searched(LINES, '')).toEqual(LINES);
});

it('a list in which nothing is found says whether there is anything to be found', () => {
  expect(nothingWords([])).toBe('There is nothing to choose from yet.');
  expect(nothingWords([{ title: 'Fuse' }])).toBe('Nothing here is called that.');
});

it('one finding besides those shown is one other', () => {
  expect([1, 2].map(othersWords)).toEqual(['1 other', '2 others']);
});
