import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkTree, type Problem } from '../../trees/document/index.ts';
import { applyChanges, liveTree, mendOf, type DraftDocument, type Mend } from '../../trees/edit/index.ts';
import { findingOf, mustHave, stepOf, symptomOf, testOf } from '../document/parts.ts';
import { arbitraryDocument } from '../support/arbitrary-tree.ts';
import { drawChanges } from '../support/random-changes.ts';
import { smallDocument, type TreeDocument } from '../support/trees.ts';

const RULES_MENDED = new Set<string>();

it('whatever is wrong with a drawn document, a mend takes its problem away and brings no error', () => {
  fc.assert(
    fc.property(arbitraryDocument(), fc.gen(), (drawn, draw) => {
      let document = drawn as unknown as DraftDocument;
      for (let edit = 0; edit < 3; edit += 1) {
        const applied = applyChanges(document, drawChanges(draw, document));
        if (applied.ok) ({ document } = applied);
      }
      const problems = problemsOf(document);
      for (const problem of problems) {
        const mend = mendOf(document, problem);
        if (mend === null) continue;
        RULES_MENDED.add(problem.rule);
        const mended = mustDo(document, mend.changes);
        const left = problemsOf(mended);
        expect(countLike(left, problem), problem.message).toBeLessThan(countLike(problems, problem));
        for (const error of left.filter(({ severity }) => severity === 'error'))
          expect(countLike(left, error), error.message).toBeLessThanOrEqual(countLike(problems, error));
        expect(liveTree(mended).blanks.length).toBeLessThanOrEqual(liveTree(document).blanks.length);
      }
    }),
    { numRuns: 300 },
  );
  // Which rules are drawn is chance, and each has its own test below; that several are shows that mends were made at all.
  expect(RULES_MENDED.size).toBeGreaterThanOrEqual(3);
}, 120_000);

describe('the mend', () => {
  it('joins a gap at the limit that the sound result has', () => {
    expect(
      mended('band-gap', (d) => void (mustHave(testOf(d, 'rail-in').results['low']).band = { to: 4 })),
    ).toEqual([{ do: 'set', path: ['tests', 'rail-in', 'results', 'low', 'band', 'to'], value: 4.75 }]);
  });

  it('takes out a first step without steps only where no other path goes on there', () => {
    const bare = (d: TreeDocument): void => {
      d.symptoms['dark-screen'] = { title: 'Dark screen', first: 'gone', weights: { 'speaker-open': 1 } };
    };
    expect(mended('missing-steps', bare)).toEqual([
      { do: 'remove', path: ['symptoms', 'dark-screen', 'first'] },
    ]);
    expect(
      mended('missing-steps', (d) => {
        bare(d);
        mustHave(d.findings['speaker-open']).otherwise = 'symptom:dark-screen';
      }),
    ).toBeNull();
  });

  it('opens the lowest band downwards', () => {
    expect(
      mended('band-gap', (d) => {
        mustHave(testOf(d, 'rail-in').results['low']).band = { from: 0, to: 4.75 };
      }),
    ).toEqual([{ do: 'remove', path: ['tests', 'rail-in', 'results', 'low', 'band', 'from'] }]);
  });

  it('of a gap between two faulty results is none, as either limit could be meant', () => {
    const between = (d: TreeDocument) => {
      const { results } = testOf(d, 'rail-in');
      mustHave(results['low']).band = { from: 1, to: 4.75 };
      results['dead'] = { title: 'Dead', band: { to: 0.5 } };
      stepOf(d, 'dark-screen', 'supply').then['dead'] = { go: 'finding:converter-low' };
    };
    expect(mended('band-gap', between)).toBeNull();
  });

  it('leads a branch that a step lacks to the one finding that gives its result', () => {
    expect(
      mended('missing-branch', (d) => void delete stepOf(d, 'dark-screen', 'supply').then['high']),
    ).toEqual([
      {
        do: 'set',
        path: ['symptoms', 'dark-screen', 'steps', 'supply', 'then', 'high'],
        value: { go: 'finding:converter-high' },
      },
    ]);
  });

  it('leads no branch where two findings give its result', () => {
    expect(
      mended('missing-branch', (d) => {
        findingOf(d, 'panel-dead').expects = { 'rail-in': 'high' };
        delete stepOf(d, 'dark-screen', 'supply').then['high'];
      }),
    ).toBeNull();
  });

  it('scales shares to sum to 1', () => {
    expect(
      mended('shares-sum', (d) => {
        findingOf(d, 'panel-dead').expects = { border: { none: 0.9, partial: 0.3 } };
      }),
    ).toEqual([
      {
        do: 'set',
        path: ['findings', 'panel-dead', 'expects', 'border'],
        value: { none: 0.75, partial: 0.25 },
      },
    ]);
  });

  it('takes out the weight of a finding that is gone, but not the last that counts', () => {
    const weigh = (weights: Record<string, number>) => (d: TreeDocument) =>
      void (symptomOf(d, 'dark-screen').weights = weights);
    const path = ['symptoms', 'dark-screen', 'weights', 'gone'];
    expect(mended('unknown-finding', weigh({ gone: 2, 'panel-dead': 1 }))).toEqual([{ do: 'remove', path }]);
    expect(mended('unknown-finding', weigh({ gone: 2, 'panel-dead': 0 }))).toBeNull();
  });

  it.each<readonly [string, (document: TreeDocument) => void]>([
    ['missing-caution', (d: TreeDocument): void => void (testOf(d, 'tone').ask = 'Open the mains adapter.')],
    ['missing-proof', (d: TreeDocument): void => void (findingOf(d, 'panel-dead').prove = [])],
    ['power-without-interlock', (d: TreeDocument): void => void (d.interlocks = [])],
    [
      'unknown-result',
      (d: TreeDocument): void => void (mustHave(d.interlocks?.[0]).until = { tone: ['gone'] }),
    ],
  ])('of %s is none: what keeps somebody from harm is not for a machine to write', (rule, change) => {
    expect(mended(rule, change)).toBeNull();
  });
});

it('a mend names what the tree has by its title, and shares in per cent', () => {
  const what = (rule: string, change: (document: TreeDocument) => void) => told(rule, change)?.what;
  expect(
    what('shares-sum', (d) => {
      findingOf(d, 'panel-dead').expects = { border: { none: 0.9, partial: 0.3 } };
    }),
  ).toBe('Scale the shares of “Picture” to sum to 100 %');
  expect(what('duplicate-entry', (d) => void (findingOf(d, 'panel-dead').prove = ['border', 'border']))).toBe(
    'Take out the second “Picture”',
  );
  expect(what('missing-branch', (d) => void delete stepOf(d, 'dark-screen', 'supply').then['high'])).toBe(
    'Lead “High” to “Converter high”, as the findings’ “What it makes tests give” has it',
  );
});

/** The changes that mend the first problem of a rule after a change to the small document; null where there is no mend. */
function mended(rule: string, change: (document: TreeDocument) => void): unknown {
  return told(rule, change)?.changes ?? null;
}

function told(rule: string, change: (document: TreeDocument) => void): Mend | null {
  const small = smallDocument();
  change(small);
  const document = JSON.parse(JSON.stringify(small)) as DraftDocument;
  const problem = mustHave(problemsOf(document).find((one) => one.rule === rule));
  return mendOf(document, problem);
}

function problemsOf(document: DraftDocument): readonly Problem[] {
  return checkTree(liveTree(document).tree);
}

function mustDo(document: DraftDocument, changes: Parameters<typeof applyChanges>[1]): DraftDocument {
  const applied = applyChanges(document, changes);
  if (!applied.ok) throw new Error(applied.message);
  return applied.document;
}

/** Problems of the same rule that say the same; their places move where an entry of a list goes. */
function countLike(problems: readonly Problem[], { rule, message }: Problem): number {
  return problems.filter((one) => one.rule === rule && one.message === message).length;
}
