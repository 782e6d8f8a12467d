import { describe, expect, it } from 'vitest';
import { leadEdit, leadLines, newLeadLines } from '../../app/editor/dialogs/lead-lines.ts';
import type { Symptom } from '../../trees/document/index.ts';
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
