import { describe, expect, it } from 'vitest';
import { inTitles } from '../../app/editor/desk/problem-words.ts';
import type { Problem } from '../../trees/document/index.ts';
import { smallTree } from '../support/trees.ts';

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

  it('leaves what the tree has not as it is written', () => {
    const missing = problem('/symptoms', 'There is no test “nowhere”. Write “Hz”.');
    expect(inTitles(smallTree(), missing)).toEqual(missing);
  });
});
