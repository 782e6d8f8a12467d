import { expect, it } from 'vitest';
import { searched } from '../../app/parts/searched.ts';

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
