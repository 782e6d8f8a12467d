import { describe, expect, it } from 'vitest';
import { inTitles } from '../../app/editor/desk/problem-words.ts';
import { checkTree, type Problem } from '../../trees/document/index.ts';
import { smallDocument, smallTree, treeOf } from '../support/trees.ts';

const problem = (at: string, message: string, help = ''): Problem => ({
  severity: 'error',
  rule: 'invented',
  at,
  message,
  help,
});

describe('a problem in the words of the editor', () => {
  it('names tests, findings, results and steps by their titles', () => {
    const tree = smallTree();
    const [symptom, path] = Object.entries(tree.symptoms)[0] ?? [];
    const [step, { test = '' } = {}] = Object.entries(path?.steps ?? {})[0] ?? [];
    const [result, { title = '' } = {}] = Object.entries(tree.tests[test]?.results ?? {})[0] ?? [];
    const at = `/symptoms/${symptom ?? ''}/steps/${step ?? ''}/then`;
    const said = inTitles(
      tree,
      problem(at, `The result “${result ?? ''}” of “${test}”.`, `Step “${step ?? ''}”.`),
    );
    const testTitle = tree.tests[test]?.title ?? '';
    expect(said.message).toBe(`The result “${title}” of “${testTitle}”.`);
    expect(said.help).toBe(`Step “${testTitle}”.`);
    expect(inTitles(tree, problem('', 'Only “speaker-open” is left.')).message).toBe(
      'Only “Speaker open” is left.',
    );
  });

  it('says of a mention of nothing what can be done in the editor, and no name of the file’s fields', () => {
    const document = smallDocument();
    const [symptom] = Object.values(document.symptoms);
    const [step] = Object.values(symptom?.steps ?? {});
    const [branch] = Object.values(step?.then ?? {});
    if (step === undefined || branch === undefined) throw new Error('The small document has changed.');
    branch.go = 'finding:nowhere';
    step.test = 'no-test';
    const said = checkTree(treeOf(document)).map((one) => inTitles(treeOf(document), one));
    const unknown = said.filter(({ rule }) => rule.startsWith('unknown-'));
    expect(unknown.map(({ rule }) => rule)).toEqual(
      expect.arrayContaining(['unknown-finding', 'unknown-test']),
    );
    for (const { help } of unknown) {
      expect(help).toMatch(/^At its place choose/);
      expect(help).not.toMatch(/\bid\b|“/);
    }
  });

  it('leaves what the tree has not as it is written', () => {
    const missing = problem('/symptoms', 'There is no test “nowhere”. Write “Hz”.');
    expect(inTitles(smallTree(), missing)).toEqual(missing);
  });
});
