import { join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { openRecords } from '../../main/records/index.ts';
import { bytesOf, tempFolder } from '../support/temp-shop.ts';
import { smallDocument, treeOf } from '../support/trees.ts';

/** Records whose clock is set back by an hour with each reading. */
function withClockSetBack() {
  let now = Date.UTC(2026, 0, 5);
  const opening = openRecords({ file: join(tempFolder(), 'shop.sqlite'), clock: () => (now -= 3_600_000) });
  if (!opening.ok) throw new Error(opening.message);
  onTestFinished(() => opening.records.close());
  return opening.records;
}

describe('a clock that is set back', () => {
  it('leaves the revision added last the current one, and a rebuild agrees', () => {
    const records = withClockSetBack();
    for (const summary of ['first', 'second', 'third']) {
      const tree = treeOf({ ...smallDocument(), summary });
      records.addRevision({ bytes: bytesOf(tree), tree, source: 'published', note: '', pictures: [] });
    }
    expect(records.trees.current('small')?.summary).toBe('third');
    expect(records.rebuild().differed).toEqual([]);
    expect(records.trees.current('small')?.summary).toBe('third');
    expect(records.trees.marks('small')).toHaveLength(3);
  });

  it('leaves the setting made last the one that holds', () => {
    const { settings } = withClockSetBack();
    expect(settings.value('backup-after-jobs')).toBe(20);
    for (const jobs of [3, 4, 5]) settings.set('backup-after-jobs', jobs);
    expect(settings.value('backup-after-jobs')).toBe(5);
  });
});
