import { describe, expect, it } from 'vitest';
import { checksWords } from '../../app/editor/checks/checks-words.ts';
import { COST_ROWS, figuresOf, minutesMore, shareMore } from '../../app/editor/cost/cost-words.ts';
import type { Problem } from '../../trees/document/index.ts';

describe('what a tree costs against another, in words', () => {
  it('says how many minutes more or less it takes now, and where it takes the same', () => {
    expect(minutesMore(12, 10.5)).toBe('1.5 min more now');
    expect(minutesMore(10.5, 32)).toBe('22 min less now');
    expect(minutesMore(10.5, 10.54)).toBe('the same');
  });

  it('says how many units in a hundred more or fewer', () => {
    expect(shareMore(0.9, 0.875)).toBe('2.5 in 100 more now');
    expect(shareMore(0.8, 0.9)).toBe('10 in 100 fewer now');
    expect(shareMore(0.8, 0.8002)).toBe('the same');
  });

  it('leaves open what is not reckoned yet', () => {
    const now = figuresOf({ ok: true, cost: { minutes: 8, tests: 3, right: 0.9 } }, null);
    expect(COST_ROWS.map(({ figure }) => figure(now))).toEqual(['8 min', '3.0', '90\u202f%', null, null]);
    expect(COST_ROWS.map(({ difference }) => difference(now, figuresOf(undefined, null)))).toEqual([
      null,
      null,
      null,
      null,
      null,
    ]);
  });
});

describe('the sum of the checks', () => {
  it('counts errors and warnings, those that one stands for included', () => {
    const problem = (severity: Problem['severity'], standsFor?: number): Problem => ({
      severity,
      rule: 'x',
      at: '',
      message: '',
      help: '',
      ...(standsFor !== undefined && { standsFor }),
    });
    expect(checksWords([])).toBe('Nothing to mend');
    expect(checksWords([problem('error'), problem('warning'), problem('warning', 200)])).toBe(
      '1 error, 201 warnings',
    );
  });
});
