import { describe, expect, it } from 'vitest';
import { leadEdit, leadLines, newLeadLines } from '../../app/editor/dialogs/lead-lines.ts';
import { searched } from '../../app/parts/searched.ts';
import { checkTree, type Symptom } from '../../trees/document/index.ts';
import { applyChanges, liveTree, type DraftDocument } from '../../trees/edit/index.ts';
import { smallDocument, smallTree } from '../support/trees.ts';

const NO_PATH: Pick<Symptom, 'first' | 'steps'> = { steps: {} };
const document = smallDocument() as unknown as DraftDocument;
const { first = '', steps } = smallTree().symptoms['dark-screen'] ?? NO_PATH;
const [result = ''] = Object.keys(steps[first]?.then ?? {});
const leading = { symptom: 'dark-screen', branch: { step: first, result } };

function after(id: string, search = '') {
  const { changes, selects } = leadEdit(document, leading, id, search);
  const applied = applyChanges(document, changes);
  if (!applied.ok) throw new Error(applied.message);
  return { tree: liveTree(applied.document).tree, selects };
}

describe('where a branch can lead', () => {
  it('is to any finding, any other step of its path, a new step for any test, and the other paths', () => {
    const kinds = new Set(leadLines(smallTree(), leading).map(({ id }) => id.split(':')[0]));
    expect(kinds).toEqual(new Set(['finding', 'step', 'test', 'symptom']));
    expect(leadLines(smallTree(), leading).map(({ id }) => id)).not.toContain(`step:${first}`);
  });

  it('is not to a finding where a path begins', () => {
    const start = leadLines(smallTree(), { symptom: 'dark-screen', branch: null });
    expect(start.some(({ id }) => id.startsWith('finding:'))).toBe(false);
    expect(newLeadLines('Torch', { symptom: 'dark-screen', branch: null }).map(({ id }) => id)).toEqual([
      'new-test',
    ]);
    expect(newLeadLines('', leading)).toEqual([]);
  });

  it('makes a test before a finding of a name typed, as where a path begins, and says which', () => {
    expect(newLeadLines('Torch', leading).map(({ title }) => title)).toEqual([
      'Make a new test called “Torch”',
      'Make a new finding called “Torch”',
    ]);
    expect(newLeadLines('Torch', { symptom: 'dark-screen', branch: null })[0]).toEqual(
      newLeadLines('Torch', leading)[0],
    );
  });

  it('says last what would go round in a loop, and of nothing else that it does', () => {
    const branch = { step: 'look', result: 'whole' };
    const lines = leadLines(smallTree(), { symptom: 'dark-screen', branch });
    const marked = lines.filter(({ notes }) => notes.includes('would go round in a loop'));
    expect(marked.map(({ id }) => id)).toEqual(['step:short', 'step:supply', 'step:far']);
    expect(lines.slice(-3)).toEqual(marked);
    expect(searched(lines, '5 V at the conv').map(({ id }) => id)).toEqual(['test:rail-in', 'step:supply']);
    for (const { id } of lines.filter((line) => /^(?:step|symptom):/.test(line.id))) {
      const { changes } = leadEdit(document, { symptom: 'dark-screen', branch }, id, '');
      const applied = applyChanges(document, changes);
      if (!applied.ok) throw new Error(applied.message);
      const rules = checkTree(liveTree(applied.document).tree).map(({ rule }) => rule);
      expect(rules.includes('loop'), id).toBe(marked.some((line) => line.id === id));
    }
  });

  it('is round in a loop too through another path that goes on in this one', () => {
    const tree = smallTree();
    const onward = { symptom: 'no-sound', branch: { step: 'listen', result: 'heard' } };
    const line = leadLines(tree, onward).find(({ id }) => id === 'symptom:dark-screen');
    expect(line).toMatchObject({ notes: ['would go round in a loop'], last: true });
  });

  it('is to what was chosen, afterwards', () => {
    const { tree } = after('finding:speaker-open');
    expect(tree.symptoms['dark-screen']?.steps[first]?.then[result]?.go).toBe('finding:speaker-open');
  });

  it('is to a step made for a test, which goes on where the branch went', () => {
    const former = steps[first]?.then[result]?.go;
    const { tree, selects } = after('test:tone');
    const made = selects.split('/').at(-1) ?? '';
    const path = tree.symptoms['dark-screen']?.steps;
    expect(path?.[first]?.then[result]?.go).toBe(made);
    expect(Object.values(path?.[made]?.then ?? {})[0]?.go).toBe(former);
  });

  it('is to a finding or test made of the name typed', () => {
    const finding = after('new-finding', 'Torch shows it').tree;
    expect(finding.findings['torch-shows-it']?.title).toBe('Torch shows it');
    expect(finding.symptoms['dark-screen']?.steps[first]?.then[result]?.go).toBe('finding:torch-shows-it');
    const test = after('new-test', 'Torch on it');
    expect(test.tree.tests['torch-on-it']?.title).toBe('Torch on it');
    expect(test.selects).toBe('/symptoms/dark-screen/steps/torch-on-it');
  });
});
