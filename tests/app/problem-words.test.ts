import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { IN_FORM } from '../../app/editor/desk/form-words.ts';
import { inTitles } from '../../app/editor/desk/problem-words.ts';
import { checkTree, type Problem } from '../../trees/document/index.ts';
import { smallDocument, smallTree, treeOf, type TreeDocument } from '../support/trees.ts';

const DOCUMENT = new URL('../../trees/document/', import.meta.url);

type Edit = (document: TreeDocument) => void;

function firstStep({ symptoms }: TreeDocument) {
  const path = symptoms['dark-screen'];
  const step = path?.steps?.[path.first ?? ''];
  if (step === undefined) throw new Error('The small document has changed.');
  return step;
}

function branchOf(document: TreeDocument): { go: string } {
  const [branch] = Object.values(firstStep(document).then ?? {}).slice(-1);
  if (branch === undefined) throw new Error('The small document has changed.');
  return branch;
}

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

  /** Words of the file, or ways of writing in it, that nobody at the form knows. */
  const FILE_WORDS =
    /[“"](?:first|weights|steps|band|from|to|reading|prove|expects|cautions|change|until|go|dc-volts)[”"]|symptom:|finding:|\bids?\b|\baxis\b|rail-in|[a-z]-[a-z]+\/|not to 1\.|\bohm\b/;

  const broken: Readonly<Record<string, Edit>> = {
    'no-way-in': ({ symptoms }) => void (symptoms['new-one'] = { title: 'New one' }),
    'missing-steps': ({ symptoms }) => void (symptoms['new-one'] = { title: 'New one', first: 'step' }),
    'no-path': (document) => {
      document.symptoms['new-one'] = { title: 'New one', weights: { 'speaker-open': 1 } };
      branchOf(document).go = 'symptom:new-one';
    },
    loop: (document) => void (branchOf(document).go = document.symptoms['dark-screen']?.first ?? ''),
    'missing-branch': (document) => {
      const then = firstStep(document).then ?? {};
      Reflect.deleteProperty(then, Object.keys(then)[0] ?? '');
    },
    'otherwise-not-in-path': ({ findings, symptoms }) =>
      void Object.assign(findings['speaker-open'] ?? {}, {
        otherwise: Object.keys(symptoms['dark-screen']?.steps ?? {})[0],
      }),
    'unknown-axis': ({ tests }) => void Object.assign(tests.tone ?? {}, { needs: { lamp: 'on' } }),
    'missing-band': ({ tests }) => void Reflect.deleteProperty(tests['rail-in']?.results.low ?? {}, 'band'),
    'band-empty': ({ tests }) =>
      void Object.assign(tests['rail-in']?.results.low ?? {}, { band: { from: 9, to: 2 } }),
    'band-gap': ({ tests }) => void Object.assign(tests['rail-in']?.results.low ?? {}, { band: { to: 2 } }),
    'band-without-reading': ({ tests }) => void Reflect.deleteProperty(tests['rail-in'] ?? {}, 'reading'),
    'change-to-itself': ({ bench }) => void Object.assign(bench?.power?.changes?.[0] ?? {}, { to: 'off' }),
    'shares-sum': ({ findings }) =>
      void Object.assign(findings['speaker-open'] ?? {}, {
        expects: { 'rail-in': { good: 0.9, low: 0.8 } },
      }),
    'interlock-empty': ({ interlocks }) =>
      void Object.assign(interlocks?.[0] ?? {}, { change: {}, until: {} }),
    'missing-proof': ({ findings }) => void Object.assign(findings['speaker-open'] ?? {}, { prove: [] }),
    'missing-caution': ({ findings }) =>
      void Object.assign(findings['speaker-open']?.remedy ?? {}, { steps: ['Open the mains side.'] }),
    'unit-unlike-instrument': ({ tests }) =>
      void Object.assign(tests['rail-in'] ?? {}, { instrument: 'dc-volts', reading: { unit: 'ohm' } }),
    'expectation-against-path': ({ findings }) =>
      void Object.assign(findings['converter-low'] ?? {}, { expects: { 'rail-in': 'good' } }),
  };

  it.each(Object.entries(broken))('says of %s nothing in words of the file', (rule, edit) => {
    const document = smallDocument();
    edit(document);
    const tree = treeOf(document);
    const found = checkTree(tree).filter((one) => one.rule === rule);
    expect(found.length).toBeGreaterThan(0);
    for (const one of found) {
      const said = inTitles(tree, one);
      expect(`${one.message} ${one.help}`).not.toBe(`${said.message} ${said.help}`);
      expect(`${said.message} ${said.help}`).not.toMatch(FILE_WORDS);
      expect(inTitles(tree, said)).toEqual(said);
    }
  });

  it('has words of the form for every rule of a check that names a field of the file', () => {
    const checks = readdirSync(DOCUMENT).filter((file) => /^check-.*\.ts$/.test(file));
    const functions = checks.flatMap((file) =>
      readFileSync(new URL(file, DOCUMENT), 'utf8').split(/\n(?=(?:export )?function )/),
    );
    const ofFile = functions.filter((source) =>
      /“(?:first|weights|steps|band|from|to|reading|prove|expects|cautions|change|until)”|symptom:ID/.test(
        source,
      ),
    );
    const rules = ofFile.flatMap((source) =>
      [...source.matchAll(/^\s*'([a-z]+(?:-[a-z]+)+)',$/gm)].map(([, rule = '']) => rule),
    );
    expect(rules).toEqual(expect.arrayContaining(['no-way-in', 'missing-proof', 'missing-band', 'band-gap']));
    expect(rules.filter((rule) => !Object.hasOwn(IN_FORM, rule))).toEqual([]);
  });

  it('says shares in per cent and a loop by its steps, as the form does', () => {
    const said = (rule: string): string | undefined => {
      const document = smallDocument();
      broken[rule]?.(document);
      const found = checkTree(treeOf(document)).find((one) => one.rule === rule);
      return found === undefined ? undefined : inTitles(treeOf(document), found).message;
    };
    expect(said('shares-sum')).toBe(
      'The shares expected of “5 V at the converter” sum to 170 %, not to 100 %.',
    );
    expect(said('loop')).toMatch(/^These steps go round in a loop: step 1, .* of Dark screen → .*\.$/);
  });
});
