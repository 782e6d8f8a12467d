import { firstSituation, moveNow, wayToTest } from '../chart/index.ts';
import type { Answer, Bench, JobState, Move, Place as ChartPlace, Situation } from '../chart/index.ts';
import { own, type Change } from '../document/index.ts';
import { answerTo, isFresh, NO_ANSWER, resultOf, type Answers } from './evaluate-answers.ts';
import type { Layout } from './evaluate-layout.ts';
import type { Spot } from './evaluate-spot.ts';

/** What the technician is on the way to. A proof ends at once where its way is barred; every other way only once it comes there. */
export type Target =
  | { readonly kind: 'step' | 'proof'; readonly test: number }
  | { readonly kind: 'remedy'; readonly finding: number }
  | { readonly kind: 'none' };

export interface MadeChange {
  readonly axis: string;
  readonly change: Change;
}

/** The changeovers to the next thing that is not one: a test, the target reached (or nothing to be done), or no way on. */
export interface Way {
  readonly changes: readonly MadeChange[];
  /** Number of the bench after them. */
  readonly bench: number;
  readonly end:
    | {
        readonly kind: 'test';
        readonly test: number;
        /** The result that a mended unit gives. */
        readonly sound: number;
      }
    | { readonly kind: 'there' | 'barred' | 'no-way' | 'endless' };
}

export interface Ways {
  /** The number of the bench at the start of a job. */
  readonly start: number;
  readonly towards: (spot: Pick<Spot, 'bench' | 'answers'>, target: Target) => Way;
}

/** Longer than any row of changeovers that comes to an end. */
const LONGEST = 1000;

/**
 * Ways as the chart gives them. They depend on the bench, the target, and the answers that interlocks and references go
 * by, so that each is asked of the chart once and remembered.
 */
export function waysOf(layout: Layout, symptom: string): Ways {
  const first = firstSituation(layout.tree, symptom);
  const benches: Bench[] = [];
  const numbers = new Map<string, number>();
  const numberOf = (bench: Bench): number => {
    const name = Object.values(bench).join(' ');
    const known = numbers.get(name);
    if (known !== undefined) return known;
    numbers.set(name, benches.length);
    return benches.push(bench) - 1;
  };
  const known = new Map<string, Way>();
  return {
    start: numberOf(first.bench),
    towards(spot, target) {
      const name = nameOf(layout, spot, target);
      const found = known.get(name);
      if (found !== undefined) return found;
      const job = { ...first.job, answers: lockingAnswers(layout, spot.answers) };
      const way = wayFrom(layout, job, benches[spot.bench] ?? first.bench, target, numberOf);
      known.set(name, way);
      return way;
    },
  };
}

function nameOf(
  { locking }: Layout,
  { bench, answers }: Pick<Spot, 'bench' | 'answers'>,
  target: Target,
): string {
  const at = target.kind === 'none' ? 0 : target.kind === 'remedy' ? target.finding : target.test;
  let name = target.kind + String.fromCharCode(at, bench);
  for (const test of locking) name += String.fromCharCode(answerTo(answers, test));
  return name;
}

function wayFrom(
  layout: Layout,
  asking: JobState,
  from: Bench,
  target: Target,
  numberOf: (bench: Bench) => number,
): Way {
  const { tree } = layout;
  const { job, place } = atTarget(layout, asking, target);
  const changes: MadeChange[] = [];
  let bench = from;
  const ended = (end: Way['end']): Way => ({ changes, bench: numberOf(bench), end });
  while (changes.length < LONGEST) {
    const at: Situation = { job, bench, passed: [] };
    if (target.kind === 'proof' && isBarred(layout, at, target.test)) return ended({ kind: 'barred' });
    const move = moveNow(tree, at, place);
    if (move === null) return ended({ kind: 'there' });
    if (move.kind === 'test') return ended(testEnd(layout, move));
    if (move.kind !== 'change') return ended({ kind: move.kind });
    changes.push({ axis: move.axis, change: move.change });
    bench = { ...bench, [move.axis]: move.change.to };
  }
  return ended({ kind: 'endless' });
}

/** A place of the chart at which it is on the way to the target, and the job as it must be for that. */
function atTarget(
  { tests, findings }: Layout,
  job: JobState,
  target: Target,
): { readonly job: JobState; readonly place: ChartPlace } {
  switch (target.kind) {
    case 'step':
    case 'proof':
      return {
        job,
        place: { kind: 'step', step: { symptom: job.symptom, step: '' }, test: tests[target.test]?.id ?? '' },
      };
    case 'remedy': {
      const finding = findings[target.finding]?.id ?? '';
      const remedy = { finding, state: 'in-hand' as const, evidence: [], prove: [], proofs: [] };
      return { job: { ...job, remedies: [remedy] }, place: { kind: 'remedy', finding } };
    }
    case 'none':
      return { job, place: { kind: 'adrift', because: 'path-ended' } };
  }
}

function isBarred({ tree, tests }: Layout, at: Situation, test: number): boolean {
  return wayToTest(tree, at, tests[test]?.id ?? '', { kind: 'proof', finding: '' }).kind === 'barred';
}

function testEnd({ tree, tests }: Layout, { test: id, purpose }: Move & { kind: 'test' }): Way['end'] {
  const test = tests.findIndex((one) => one.id === id);
  const until = purpose.kind === 'interlock' ? (tree.interlocks[purpose.interlock]?.until ?? {}) : {};
  const allowed = own(until, id);
  const sound =
    allowed === undefined ? 0 : (tests[test]?.results.findIndex((one) => allowed.includes(one)) ?? 0);
  return { kind: 'test', test, sound: Math.max(0, sound) };
}

function lockingAnswers({ locking, tests }: Layout, answers: Answers): readonly Answer[] {
  return locking.flatMap((number) => {
    const code = answerTo(answers, number);
    const test = tests[number];
    if (code === NO_ANSWER || test === undefined) return [];
    const era = isFresh(code) ? 0 : BEFORE;
    return [{ test: test.id, result: test.results[resultOf(code)] ?? '', era, reading: READING }];
  });
}

/** The era of what was answered before the last remedy, that one being 0. */
const BEFORE = -1;

/** Stands for whatever reading gave the result: the chart asks only whether there is one. */
const READING = { value: 1, typed: '1', accuracy: { percent: 0, constant: 0 } };
