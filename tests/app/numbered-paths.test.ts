import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { numberedPaths } from '../../app/editor/sheet/numbered-paths.ts';
import { treeSheet } from '../../app/editor/sheet/tree-sheet.ts';
import { LIBRARY } from '../../main/services/index.ts';
import { destination, readTree, type Tree } from '../../trees/document/index.ts';
import { arbitraryDocument } from '../support/arbitrary-tree.ts';
import { smallDocument, smallTree, treeOf } from '../support/trees.ts';
import { readdirSync, readFileSync } from 'node:fs';

const shipped = readdirSync(LIBRARY)
  .filter((file) => file.endsWith('.tree.json'))
  .map((file) => {
    const { tree } = readTree(readFileSync(new URL(file, LIBRARY)));
    if (tree === null) throw new Error(`${file} cannot be read`);
    return [file, tree] as const;
  });

describe('the steps of a path are numbered', () => {
  it.each(shipped)('each once, from 1, before all that it leads to, in %s', (_, tree) => {
    expectNumbered(tree);
  });

  it('each once, in any document, sound or not', () => {
    const numberedAt = (tree: Tree): void => {
      for (const { symptom, steps } of numberedPaths(tree)) {
        expect([...steps.keys()].sort()).toEqual(Object.keys(tree.symptoms[symptom]?.steps ?? {}).sort());
        expect([...steps.values()]).toEqual([...steps.keys()].map((_, at) => at + 1));
      }
      treeSheet(tree);
    };
    const read = arbitraryDocument().map((document) => readTree(JSON.stringify(document)).tree);
    fc.assert(
      fc.property(read, (tree) => (tree === null ? undefined : numberedAt(tree))),
      { numRuns: 200 },
    );
  });

  it('with the way by the first results straight on', () => {
    const paths = numberedPaths(treeOf(withPath(FORK)));
    expect([...(paths[0]?.steps ?? [])]).toEqual([
      ['top', 1],
      ['good', 2],
      ['better', 3],
      ['bad', 4],
      ['join', 5],
    ]);
  });

  it('around a loop, and with what nothing leads to last', () => {
    const paths = numberedPaths(
      treeOf(withPath({ ...FORK, join: step('top', 'top'), alone: step('join', 'join') })),
    );
    expect([...(paths[0]?.steps.keys() ?? [])]).toEqual(['top', 'good', 'better', 'bad', 'join', 'alone']);
    expect(paths[0]?.unreached).toBe(true);
  });
});

describe('a tree on a sheet', () => {
  it('says for every result where to go on: a step, another path, or a finding by its number', () => {
    const sheet = treeSheet(smallTree());
    for (const { steps } of sheet.paths)
      for (const { ways } of steps)
        for (const { to } of ways)
          expect(to).toMatch(/^(?:go to \d+|go to [A-Z]\d+ \(.+\)|path [A-Z], .+|finding \d+, .+)$/);
    expect(sheet.findings.map(({ number }) => number)).toEqual(sheet.findings.map((_, at) => String(at + 1)));
  });

  it('says limits in the units of a reading, and those of a ratio by the test it is to', () => {
    const { tests } = treeSheet(smallTree());
    const limits = (id: string) =>
      tests.find((test) => test.id === id)?.results.map((result) => result.limits);
    expect(limits('rail-in')).toEqual(['4.75 V to below 5.25 V', 'below 4.75 V', '5.25 V or more']);
    expect(limits('rail-far')).toEqual([
      '0.96 × 5 V at the converter or more',
      'below 0.96 × 5 V at the converter',
    ]);
    expect(limits('tone')).toEqual(['', '']);
  });

  it('says of a branch that leads nowhere that it does', () => {
    const document = withPath({ top: step('gone', 'finding:gone') });
    const [path] = treeSheet(treeOf(document)).paths;
    expect(path?.steps[0]?.ways.map(({ to }) => to)).toEqual(['leads nowhere yet', 'leads nowhere yet']);
  });

  it('leads to a test’s cautions before the test', () => {
    const document = withPath(FORK);
    const tone = document.tests['tone'];
    if (tone !== undefined) tone.cautions = ['Loud.'];
    const [path] = treeSheet(treeOf(document)).paths;
    expect(path?.steps.map(({ cautioned, testNumber }) => [cautioned, testNumber])).toEqual(
      path?.steps.map(() => [true, 'T5']),
    );
  });
});

/** A step of the test `tone`, and where it leads by its two results. */
function step(heard: string, silent: string) {
  return { test: 'tone', then: { heard: { go: heard }, silent: { go: silent } } };
}

const END = 'finding:capacitor-short';
const FORK = {
  join: step(END, END),
  bad: step('join', END),
  better: step(END, 'join'),
  top: step('good', 'bad'),
  good: step('better', 'join'),
};

function withPath(steps: Record<string, ReturnType<typeof step>>) {
  const document = smallDocument();
  document.symptoms = { only: { title: 'Only', first: 'top', steps } };
  return document;
}

function expectNumbered(tree: Tree): void {
  for (const { symptom, steps, unreached } of numberedPaths(tree)) {
    expect(unreached).toBe(false);
    const path = tree.symptoms[symptom];
    if (path?.first !== undefined) expect(steps.get(path.first)).toBe(1);
    for (const [id, { then }] of Object.entries(path?.steps ?? {}))
      for (const { go } of Object.values(then)) {
        const place = destination(go, symptom);
        if (place.kind === 'step' && place.symptom === symptom)
          expect(steps.get(place.step)).toBeGreaterThan(steps.get(id) ?? Infinity);
      }
  }
}
