import { describe, expect, it } from 'vitest';
import {
  accuracyWords,
  bytesWords,
  jobsWords,
  minutesWords,
  percent,
  priceWords,
  unbroken,
} from '../../app/parts/format.ts';

const plain = (text: string): string => text.replace(/[\u00a0\u202f]/gu, ' ');

describe('format', () => {
  it('gives probabilities in whole percent', () => {
    expect(plain(percent(0))).toBe('0 %');
    expect(plain(percent(0.126))).toBe('13 %');
    expect(plain(percent(1))).toBe('100 %');
  });

  it('tells almost none from none and almost all from all', () => {
    expect(plain(percent(0.0001))).toBe('<1 %');
    expect(plain(percent(0.9999))).toBe('>99 %');
  });

  it('counts jobs in words', () => {
    expect([0, 1, 12].map(jobsWords)).toEqual(['no jobs', '1 job', '12 jobs']);
  });

  it('gives minutes with one decimal under ten', () => {
    expect([0.5, 2, 9.96, 12.4].map(minutesWords)).toEqual(['0.5 min', '2 min', '10 min', '12 min']);
  });

  it('gives prices with two decimals and no currency', () => {
    expect(priceWords(4.5)).toBe('4.50');
  });

  it('gives sizes in binary units', () => {
    expect([512, 2048, 3 * 1024 * 1024].map(bytesWords)).toEqual(['512 bytes', '2.0 KiB', '3.0 MiB']);
  });

  it('writes an accuracy as data sheets do', () => {
    expect(accuracyWords({ percent: 0.5, constant: 0.005 }, 'V')).toBe('±(0.5 % + 0.005 V)');
  });

  it('keeps a number with its unit and breaks other words as they are', () => {
    expect(unbroken('Bench supply, 6.0 V, limit 0.35 A')).toBe('Bench supply, 6.0\u00a0V, limit 0.35\u00a0A');
    expect(unbroken('Take 6 screws out')).toBe('Take 6 screws out');
  });
});
