import { listBackups, makeBackup, type Made, type StoredBackup } from './backups.ts';
import { openCharts } from './charts.ts';
import { openCounts, sortingOf } from './counts.ts';
import type { Room } from './database.ts';
import { openEvents, openStatus } from './events.ts';
import type { Ids } from './ids.ts';
import { openInstruments } from './instruments.ts';
import { startIntegrityCheck } from './integrity.ts';
import { openJobs, openPlaces } from './jobs.ts';
import { openPictures } from './pictures.ts';
import { openRebuild } from './rebuild.ts';
import { openSearch } from './search.ts';
import { openSettings } from './settings.ts';
import { openTallies } from './tallies.ts';
import { openTechnicians } from './technicians.ts';
import { openTreeRevisions, type NewRevision } from './tree-revisions.ts';

/** The shop's records, open. Each part is one concern; whatever writes is one transaction, durable when it returns. */
export type Records = ReturnType<typeof assembleRecords>;

/** Puts the records together over an open, migrated database, and starts its full check beside the work. */
export function assembleRecords({ file, db, clock, ids }: Room & { readonly file: string }) {
  let source = ids;
  const room: Room = { db, clock, ids: (milliseconds) => source(milliseconds) };
  const pictures = openPictures(room);
  const trees = openTreeRevisions(room, pictures);
  const charts = openCharts(trees);
  const counts = openCounts(room, trees);
  const search = openSearch(db);
  const settle = openStatus(db, counts, search);
  const places = openPlaces(db);
  const events = openEvents(room, settle);
  const integrity = startIntegrityCheck(file);

  return {
    file,
    trees: {
      list: trees.list,
      find: trees.find,
      marks: trees.marks,
      tree: trees.tree,
      current: trees.current,
    },
    pictures: { find: pictures.find, marks: pictures.marks },
    technicians: openTechnicians(room),
    instruments: openInstruments(room),
    settings: openSettings(room),
    jobs: openJobs(room, search, places),
    events,
    charts,
    /** The counts of a tree, sorted by its current revision. */
    historyOf: counts.of,
    tallies: openTallies(db),
    integrity,
    /** Adds a revision and makes it its tree's current one; sorts the tree's counts again where it sorts otherwise. */
    addRevision: db.transaction((revision: NewRevision) => {
      const former = trees.current(revision.tree.id);
      const summary = trees.add(revision);
      if (former !== null && sortingOf(former) !== sortingOf(revision.tree))
        counts.sortAgain(revision.tree.id);
      return summary;
    }).immediate,
    rebuild: openRebuild({ db, trees, charts, events, places, settle }),
    /** Makes many writes one transaction: all of them or none. Their ids come from `from`, if it is given. */
    together<T>(write: () => T, from: Ids = ids): T {
      source = from;
      try {
        return db.transaction(write).immediate();
      } finally {
        source = ids;
      }
    },
    backups: {
      list: (): readonly StoredBackup[] => listBackups(file),
      make: (): Promise<Made> => makeBackup(file, clock),
    },
    /** Ends the check if it still runs, and closes the database. */
    async close(): Promise<void> {
      await integrity.stop();
      if (db.open) db.close();
    },
  };
}
