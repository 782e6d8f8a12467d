import type { FaultModel } from '../../trees/belief/index.ts';
import type { JobState } from '../../trees/chart/index.ts';
import type { Tree } from '../../trees/document/index.ts';

/** What the reference is asked: the planner's question over again, so that it needs nothing of the planner. */
export interface ReferenceQuestion {
  readonly model: FaultModel;
  readonly goal: 'isolate' | 'fix';
  readonly job: JobState;
  readonly bench: Readonly<Record<string, string>>;
  /** What an hour costs, in the parts' money; null where parts do not count. */
  readonly rate: number | null;
}

/** One moment of a plan, written out in full. */
export interface State {
  /** Test to the result that stands. */
  readonly results: ReadonlyMap<string, string>;
  /** Tests whose answer is still the one the job came with, and so as doubtful as its reading. */
  readonly given: ReadonlySet<string>;
  /** Tests that interlocks wait for and that were made since the last remedy. */
  readonly fresh: ReadonlySet<string>;
  /** Fresh tests without a result that stands: made in a failed proof, and taken as allowed. */
  readonly vouched: ReadonlySet<string>;
  /** Findings whose remedy did not mend the unit. */
  readonly tried: ReadonlySet<string>;
  readonly bench: Readonly<Record<string, string>>;
}

export function firstState({ model, job, bench }: ReferenceQuestion): State {
  const failed = job.remedies.filter(({ state }) => state === 'not-mended');
  const fresh = job.answers.filter(({ test, era }) => era === job.era && isOpener(model.tree, test));
  return {
    results: new Map(job.answers.map(({ test, result }) => [test, result])),
    given: new Set(job.answers.map(({ test }) => test)),
    fresh: new Set(fresh.map(({ test }) => test)),
    vouched: new Set(),
    tried: new Set(failed.map(({ finding }) => finding)),
    bench,
  };
}

/** Whether any interlock waits for this test. */
export function isOpener(tree: Tree, test: string): boolean {
  return tree.interlocks.some(({ until }) => Object.hasOwn(until, test));
}

/** The state as one string; two states with the same string are the same state. */
export function written({ model }: ReferenceQuestion, state: State): string {
  const tests = Object.keys(model.tree.tests).map((test) => {
    const marks = [state.given, state.fresh, state.vouched].map((set) => (set.has(test) ? '*' : ''));
    return `${state.results.get(test) ?? ''}|${marks.join('|')}`;
  });
  const tried = model.findings.map((finding) => (state.tried.has(finding) ? 'tried' : ''));
  const bench = Object.keys(model.tree.bench).map((axis) => state.bench[axis] ?? '');
  return [tests, tried, bench].map((part) => part.join(';')).join('/');
}

export function without<T>(set: ReadonlySet<T>, gone: (value: T) => boolean): ReadonlySet<T> {
  return new Set([...set].filter((value) => !gone(value)));
}
