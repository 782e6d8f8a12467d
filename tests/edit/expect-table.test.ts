import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compileFaultModel, NO_HISTORY } from '../../trees/belief/index.ts';
import { checkTree, treeSchema, type Tree } from '../../trees/document/index.ts';
import {
  addStep,
  applyEntry,
  expectCell,
  link,
  liveTree,
  openDraft,
  put,
  removalOf,
  setCell,
  textOf,
  unlink,
  type Change,
  type Draft,
  type ExpectCell,
} from '../../trees/edit/index.ts';
import { arbitraryTree } from '../support/arbitrary-tree.ts';
import { smallDocument } from '../support/trees.ts';

function cellsOf(tree: Tree): ReadonlyMap<string, ExpectCell> {
  return new Map(
    Object.keys(tree.findings).flatMap((finding) =>
      Object.keys(tree.tests).map((test) => [`${finding}|${test}`, expectCell(tree, finding, test)] as const),
    ),
  );
}

/** What the fault model takes a finding to make a test give, without history: q = g a + (1 - g) / k. */
function modelled(tree: Tree, cell: ExpectCell, test: string): readonly number[] {
  const { results, reliability = tree.defaults.reliability } = tree.tests[test] ?? { results: {} };
  const k = Object.keys(results).length;
  const shares = cell.kind === 'unknown' ? Array<number>(k).fill(1 / k) : cell.shares;
  return shares.map((share) => reliability * share + (1 - reliability) / k);
}

function agreeWithModel(tree: Tree): void {
  const model = compileFaultModel(tree, NO_HISTORY);
  for (const [key, cell] of cellsOf(tree)) {
    const [finding = '', test = ''] = key.split('|');
    const row = model.findings.indexOf(finding);
    const wanted = modelled(tree, cell, test);
    const { probability } = model.test(test);
    wanted.forEach((share, place) => {
      expect(probability[row * wanted.length + place]).toBeCloseTo(share, 12);
    });
  }
}

/** One act at the table or in the drawing, drawn by a number. */
function drawnAct(draft: Draft, seed: number): readonly Change[] {
  const { tree } = liveTree(draft.document);
  const pick = <T>(list: readonly T[], by: number): T | undefined => list[by % Math.max(1, list.length)];
  const finding = pick(Object.keys(tree.findings), seed);
  const test = pick(Object.keys(tree.tests), seed >> 3);
  const symptom = pick(Object.keys(tree.symptoms), seed >> 5);
  if (finding === undefined || test === undefined || symptom === undefined) return [];
  const results = Object.keys(tree.tests[test]?.results ?? {});
  const steps = tree.symptoms[symptom]?.steps ?? {};
  const step = pick(Object.keys(steps), seed >> 4);
  const result = pick(Object.keys(tree.tests[steps[step ?? '']?.test ?? '']?.results ?? {}), seed >> 6);
  const branch = step === undefined || result === undefined ? null : { symptom, step, result };
  switch (seed % 6) {
    case 0:
      return setCell(draft.document, finding, test, pick(results, seed >> 7) ?? null);
    case 1: {
      const shares = Object.fromEntries(results.map((each) => [each, 1 / results.length]));
      return setCell(draft.document, finding, test, shares);
    }
    case 2:
      return setCell(draft.document, finding, test, null);
    case 3:
      return branch === null ? [] : link(draft.document, branch, `finding:${finding}`);
    case 4:
      return branch === null
        ? addStep(draft.document, symptom, test).changes
        : unlink(draft.document, branch);
    default:
      return seed % 12 === 5
        ? addStep(draft.document, symptom, test, branch ?? undefined).changes
        : removalOf(draft.document, [`/findings/${finding}`]).changes;
  }
}

describe('the table of findings against tests', () => {
  it('holds just what the arithmetic takes, for trees of any kind', () => {
    fc.assert(
      fc.property(arbitraryTree(), (tree) => agreeWithModel(tree)),
      { numRuns: 60 },
    );
  });

  it('agrees with the drawing after any acts at either: both are read from one document', () => {
    fc.assert(
      fc.property(fc.array(fc.nat(0x3fffffff), { maxLength: 12 }), (acts) => {
        const opened = openDraft(JSON.stringify(smallDocument()));
        if (!opened.ok) throw new Error(opened.message);
        let { draft } = opened;
        for (const seed of acts) {
          const changes = drawnAct(draft, seed);
          if (changes.length === 0) continue;
          const next = applyEntry(draft, { kind: 'edit', what: 'Drawn', changes });
          if (!next.ok) throw new Error(next.message);
          ({ draft } = next);
        }
        const { tree } = liveTree(draft.document);
        const afresh = treeSchema.parse(JSON.parse(textOf(draft)));
        expect(cellsOf(tree)).toEqual(cellsOf(afresh));
        // A tree with errors is not reckoned with; its table is read from it all the same.
        if (checkTree(tree).every(({ severity }) => severity !== 'error')) agreeWithModel(tree);
      }),
      { numRuns: 200 },
    );
  });

  it('changes no step when a cell is written, and no written cell when a branch is led elsewhere', () => {
    const document = treeDocument();
    const written = liveAfter(document, setCell(document, 'speaker-open', 'tone', 'silent'));
    expect(written.tree.symptoms).toBe(liveTree(document).tree.symptoms);
    expect(expectCell(written.tree, 'speaker-open', 'tone')).toMatchObject({ kind: 'said' });
    const [step = '', { then }] = Object.entries(written.tree.symptoms['no-sound']?.steps ?? {})[0] ?? [
      '',
      { then: {} },
    ];
    const [result = ''] = Object.keys(then);
    const led = liveAfter(
      written.document,
      link(written.document, { symptom: 'no-sound', step, result }, 'finding:speaker-open'),
    );
    expect(expectCell(led.tree, 'speaker-open', 'tone')).toMatchObject({
      shares: sharesOf(led.tree, 'tone', 'silent'),
    });
  });

  it('says where a path leads to a finding by a result that it is said never to give', () => {
    const document = treeDocument();
    const path = liveTree(document).tree;
    const cell = expectCell(path, 'speaker-open', 'tone');
    if (cell.kind === 'unknown') throw new Error('the small tree leads to the finding by the test');
    const results = Object.keys(path.tests.tone?.results ?? {});
    const by = results[cell.shares.findIndex((share) => share > 0)] ?? '';
    const other = results.find((result) => result !== by) ?? '';
    const against = liveAfter(document, setCell(document, 'speaker-open', 'tone', other)).tree;
    expect(expectCell(against, 'speaker-open', 'tone')).toMatchObject({ kind: 'said', againstPath: true });
    const along = liveAfter(document, setCell(document, 'speaker-open', 'tone', by)).tree;
    expect(expectCell(along, 'speaker-open', 'tone')).toMatchObject({ kind: 'said', againstPath: false });
  });

  it('leaves nothing behind where a cell is cleared', () => {
    const document = treeDocument();
    const bare = liveAfter(document, put(document, ['findings', 'speaker-open', 'expects'], {})).document;
    const written = liveAfter(bare, setCell(bare, 'speaker-open', 'tone', 'silent')).document;
    const cleared = liveAfter(written, setCell(written, 'speaker-open', 'tone', null)).document;
    expect(JSON.stringify(cleared.findings)).not.toContain('expects":{}');
    expect(expectCell(liveTree(cleared).tree, 'speaker-open', 'tone').kind).not.toBe('said');
  });
});

function treeDocument() {
  const opened = openDraft(JSON.stringify(smallDocument()));
  if (!opened.ok) throw new Error(opened.message);
  return opened.draft.document;
}

function liveAfter(document: ReturnType<typeof treeDocument>, changes: readonly Change[]) {
  const opened = openDraft(JSON.stringify(document));
  if (!opened.ok) throw new Error(opened.message);
  // The document itself, not its copy: what is untouched then keeps its identity.
  const draft = { ...opened.draft, base: document, document };
  const next =
    changes.length === 0
      ? { ok: true as const, draft }
      : applyEntry(draft, { kind: 'edit', what: 'Act', changes });
  if (!next.ok) throw new Error(next.message);
  return { document: next.draft.document, tree: liveTree(next.draft.document).tree };
}

function sharesOf(tree: Tree, test: string, result: string): readonly number[] {
  return Object.keys(tree.tests[test]?.results ?? {}).map((each) => Number(each === result));
}
