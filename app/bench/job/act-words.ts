import type {
  AdriftBecause,
  JobState,
  Outcome,
  Purpose,
  RemedyState,
  Standing,
  Wanted,
} from '../../../trees/chart/index.ts';
import { UNLISTED, type Tree } from '../../../trees/document/index.ts';
import type { GlyphName } from '../../parts/index.ts';

/** The name of a finding; `unlisted` is called by what it means. */
export function findingTitle(tree: Tree, finding: string): string {
  return finding === UNLISTED ? 'Something not in this tree' : (tree.findings[finding]?.title ?? finding);
}

export function testTitle(tree: Tree, test: string): string {
  return tree.tests[test]?.title ?? test;
}

export function resultTitle(tree: Tree, test: string, result: string): string {
  return tree.tests[test]?.results[result]?.title ?? result;
}

export function stateTitle(tree: Tree, axis: string, state: string): string {
  return tree.bench[axis]?.states[state]?.title ?? state;
}

export const OUTCOME_WORDS: Readonly<Record<Outcome, { readonly title: string; readonly glyph: GlyphName }>> =
  {
    fixed: { title: 'Fixed', glyph: 'tick' },
    'no-fault-found': { title: 'No fault found', glyph: 'open' },
    'beyond-economic-repair': { title: 'Beyond economic repair', glyph: 'cross' },
    declined: { title: 'Declined', glyph: 'barred' },
    'passed-on': { title: 'Passed on', glyph: 'forward' },
  };

/** What became of a remedy. */
export const REMEDY_WORDS: Readonly<Record<RemedyState, string>> = {
  'in-hand': 'taken in hand, not done',
  proving: 'done, not proved yet',
  mended: 'done; it mended the unit',
  'not-mended': 'done; it did not mend the unit',
  'given-up': 'left undone',
};

/** What the changeovers and tests on the way are for. */
export function wantedWords(tree: Tree, wanted: Wanted): string {
  switch (wanted.kind) {
    case 'test':
      return `the test “${testTitle(tree, wanted.test)}”`;
    case 'remedy':
      return `the remedy for “${findingTitle(tree, wanted.finding)}”`;
    case 'safety':
      return 'safety';
  }
}

/** Why a test is asked now, in one line above it. */
export function purposeWords(tree: Tree, job: JobState, purpose: Purpose): string {
  switch (purpose.kind) {
    case 'path':
      return `On the path for “${tree.symptoms[purpose.step.symptom]?.title ?? purpose.step.symptom}”`;
    case 'aside':
      return tree.symptoms[job.symptom]?.first === undefined
        ? 'No order is set: you turned to this test'
        : 'Out of order: you turned to this test';
    case 'interlock':
      return `Before ${interlockWords(tree, purpose.interlock)}, which ${wantedWords(tree, purpose.wanted)} needs`;
    case 'reference':
      return `Its reading is needed first, for ${wantedWords(tree, purpose.wanted)}`;
    case 'proof':
      return proofWords(tree, job, purpose.finding);
  }
}

/** The changeover an interlock bars, as `Power: On`. */
export function interlockWords(tree: Tree, interlock: number): string {
  const change = tree.interlocks[interlock]?.change ?? {};
  const states = Object.entries(change).map(
    ([axis, state]) => `${tree.bench[axis]?.title ?? axis}: ${stateTitle(tree, axis, state)}`,
  );
  return `“${states.join(', ')}”`;
}

function proofWords(tree: Tree, job: JobState, finding: string): string {
  const proving = job.remedies.find(({ state }) => state === 'proving');
  if (proving === undefined) return `Proof of “${findingTitle(tree, finding)}”`;
  const at = Math.min(proving.proofs.length + 1, proving.prove.length);
  return `Proof ${String(at)} of ${String(proving.prove.length)}: is “${findingTitle(tree, finding)}” mended?`;
}

/** The act in one sentence, for the live region and the window's title. */
export function actTitle(tree: Tree, { act }: Standing): string {
  switch (act.kind) {
    case 'test':
      return testTitle(tree, act.test);
    case 'change':
      return `${tree.bench[act.axis]?.title ?? act.axis}: ${stateTitle(tree, act.axis, act.change.to)}`;
    case 'finding':
    case 'remedy':
      return findingTitle(tree, act.finding);
    case 'contradiction':
      return `Two answers to “${testTitle(tree, act.test)}”`;
    case 'barred':
      return `Barred: ${interlockWords(tree, act.interlock)}`;
    case 'adrift':
      return adriftTitle(act.because);
    case 'mended':
      return 'Mended and proved';
    case 'closed':
      return `Closed: ${OUTCOME_WORDS[act.outcome].title}`;
    default:
      return unreachable(act);
  }
}

/** Why the course is off the path, as a title. */
export function adriftTitle(because: AdriftBecause): string {
  switch (because) {
    case 'no-path':
      return 'This symptom has no path';
    case 'skipped':
      return 'This test cannot be made';
    case 'path-ended':
      return 'The path has no more to say';
  }
}

function unreachable(act: never): never {
  throw new Error(`unknown-act: ${JSON.stringify(act)}`);
}
