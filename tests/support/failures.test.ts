import { describe, expect, test } from 'vitest';
import { inShort, playwrightFailures, vitestFailures } from './failures.ts';

describe('the failures a Vitest report tells', () => {
  const passed = { status: 'passed', fullName: 'adds', failureMessages: [] };
  const file = (name: string, status: string, assertionResults: unknown[], message = '') => ({
    name: `/shop/tests/${name}`,
    status,
    message,
    assertionResults,
  });

  test('are its failed tests, with what each said', () => {
    const failed = { status: 'failed', fullName: 'sums adds', failureMessages: ['expected 2 to be 3'] };
    const report = { testResults: [file('a.test.ts', 'failed', [passed, failed])] };
    expect(vitestFailures(report, '/shop')).toEqual([
      { where: 'tests/a.test.ts › sums adds', says: 'expected 2 to be 3' },
    ]);
  });

  test('are also the files that did not load', () => {
    const report = {
      testResults: [file('a.test.ts', 'passed', [passed]), file('b.test.ts', 'failed', [], 'no such module')],
    };
    expect(vitestFailures(report, '/shop')).toEqual([{ where: 'tests/b.test.ts', says: 'no such module' }]);
  });
});

describe('the failures a Playwright report tells', () => {
  const spec = (title: string, status: string, messages: string[]) => ({
    title,
    file: 'a.spec.ts',
    tests: [{ status, results: [{ errors: messages.map((message) => ({ message })) }] }],
  });

  test('are the tests that did not pass, in whatever suite of suites, and what failed outside them', () => {
    const inner = { specs: [spec('opens', 'expected', []), spec('closes', 'unexpected', ['still open'])] };
    const report = {
      suites: [{ specs: [spec('is left out', 'skipped', [])], suites: [inner] }],
      errors: [{ message: 'no server' }],
    };
    expect(playwrightFailures(report)).toEqual([
      { where: 'outside any test', says: 'no server' },
      { where: 'a.spec.ts › is left out', says: 'skipped' },
      { where: 'a.spec.ts › closes', says: 'still open' },
    ]);
  });
});

describe('a failure in short', () => {
  test('has no colours and no calls', () => {
    const says = '\u001b[31mexpected 2\u001b[39m to be 3\n\n    at /shop/a.test.ts:1:1';
    expect(inShort({ where: 'a', says })).toBe('a\n    expected 2 to be 3');
  });

  test('is cut where it is long, in lines and in columns, and says so', () => {
    const lines = Array.from({ length: 40 }, () => 'x'.repeat(1000)).join('\n');
    const short = inShort({ where: 'a', says: lines });
    expect(short.length).toBeLessThan(6000);
    expect(short).toContain('… 28 more lines');
  });
});
