import { expect } from 'vitest';
import { run } from './command-line.ts';

/** What `plan --json` prints. */
export interface Shown {
  readonly actions: readonly {
    readonly kind: string;
    readonly id: string;
    readonly minutes: number;
    readonly expectedTotal: number;
  }[];
  readonly expectedTotal: number;
  readonly method: string;
  readonly gap: number;
}

/** The answer of `plan`, which must end well. */
export async function planned(file: string, ...argv: readonly string[]): Promise<Shown> {
  const { status, json, text } = await run('plan', file, ...argv);
  expect(status, text).toBe(0);
  return json as Shown;
}

/** Something of everything, as JSON has it: what is wanted of numbers is that they are there and finite. */
export function expectShape(shown: Shown): void {
  expect(Object.keys(shown)).toEqual(['actions', 'expectedTotal', 'method', 'gap']);
  const again = JSON.parse(JSON.stringify(shown)) as Shown;
  expect(again).toEqual(shown);
  for (const one of shown.actions) {
    expect(Object.keys(one)).toEqual(['kind', 'id', 'minutes', 'expectedTotal']);
    expect(['test', 'remedy', 'pass-on']).toContain(one.kind);
    expect(one.minutes).toBeGreaterThanOrEqual(0);
    expect(one.expectedTotal).toBeGreaterThanOrEqual(one.minutes);
  }
  const totals = shown.actions.map(({ expectedTotal }) => expectedTotal);
  expect(totals).toEqual([...totals].sort((a, b) => a - b));
}
