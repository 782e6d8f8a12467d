import { expect, it } from 'vitest';
import { revisionInSentence, revisionWords } from '../../app/editor/list/revision-words.ts';

const AT = '2031-11-26T14:05:00.000Z';
const NOW = new Date('2031-12-03T09:00:00.000Z');
const revision = {
  revisionId: '01900000-0000-7000-8000-000000000000',
  treeId: 'small',
  checksum: 'a'.repeat(64),
  note: '',
  addedAt: AT,
  current: true,
  openJobs: 0,
  source: 'library',
  technician: null,
} as const;

it('a revision within a sentence is called a revision, by where it is from', () => {
  expect(revisionWords(revision, NOW)).toMatch(/^Came with Ohmward, /);
  expect(revisionInSentence(revision, NOW)).toMatch(/^the revision that came with Ohmward, .*26/);
  expect(revisionInSentence({ ...revision, source: 'import' }, NOW)).toMatch(
    /^the revision that was imported, /,
  );
  expect(revisionInSentence({ ...revision, technician: 'Mara' }, NOW)).toMatch(
    /^the revision that Mara published, /,
  );
});
