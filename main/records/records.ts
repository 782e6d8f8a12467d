import { sortingOf } from '../../trees/belief/index.ts';
import type { TreeSummary } from '../contract/index.ts';
import { listBackups, makeBackup, type Made, type StoredBackup } from './backups.ts';
import { openBulk } from './bulk.ts';
import { openCharts } from './charts.ts';
import { openCounts, type Counts } from './counts.ts';
import type { Room } from './database.ts';
import { openDrafts } from './drafts.ts';
import { openEvents, openStatus } from './events.ts';
import { openExpected } from './expected.ts';
import { openFacts, type Facts } from './facts.ts';
import { openFactMaking } from './fact-making.ts';
import type { Ids } from './ids.ts';
import { openInstruments } from './instruments.ts';
import { startIntegrityCheck } from './integrity.ts';
import { openJobs, openPlaces } from './jobs.ts';
import { openPast } from './past.ts';
import { openPictures } from './pictures.ts';
import { openPublishing } from './publishing.ts';
import { openRebuild } from './rebuild.ts';
import { openRevisionList } from './revision-list.ts';
import { openSearch } from './search.ts';
import { openSettings } from './settings.ts';
import { openShown } from './shown.ts';
import { openStoredEvents } from './stored-events.ts';
import { openTallies } from './tallies.ts';
import { openTechnicians } from './technicians.ts';
import { openTreeHeads } from './tree-heads.ts';
import { openTreeRevisions, type NewRevision, type TreeRevisions } from './tree-revisions.ts';

/** The shop's records, open. Each part is one concern; whatever writes is one transaction, durable when it returns. */
export type Records = ReturnType<typeof assembleRecords>;

/** Puts the records together over an open, migrated database, and starts its full check beside the work. */
export function assembleRecords({ file, db, clock, ids }: Room & { readonly file: string }) {
  let source = ids;
  const { trees, pictures, counts, facts, rebuild, heads, ...parts } = openParts({
    db,
    clock,
    ids: (milliseconds) => source(milliseconds),
  });
  const integrity = startIntegrityCheck(file);
  const addRevision = openAddRevision(db, { trees, counts, facts });
  const { revisions, drafts } = parts;
  return {
    ...parts,
    file,
    trees: {
      list: trees.list,
      find: trees.find,
      marks: trees.marks,
      tree: trees.tree,
      current: trees.current,
      /** The id of a tree's current revision; null where the shop has no such tree. */
      currentId: heads.revisionOf,
    },
    pictures: {
      find: pictures.find,
      marks: pictures.marks,
      marksOfDraft: pictures.marksOfDraft,
      namesOfTree: pictures.namesOfTree,
      named: pictures.named,
    },
    /** The counts of a tree, sorted by its current revision. */
    historyOf: counts.of,
    /** Those of them that bear on a job of a symptom with answers to some tests. */
    historyAbout: counts.about,
    /** What its closed jobs would add to the counts of a draft of it. */
    contributionsAs: counts.contributionsAs,
    integrity,
    addRevision,
    publish: openPublishing(db, { heads, revisions, drafts, addRevision }),
    rebuild,
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
      parts.factMaking.stop();
      await integrity.stop();
      if (db.open) db.close();
    },
  };
}

function openParts(room: Room) {
  const { db } = room;
  const pictures = openPictures(room);
  const heads = openTreeHeads(db);
  const trees = openTreeRevisions(room, heads, pictures);
  const charts = openCharts(trees);
  const counts = openCounts(room, trees);
  const search = openSearch(db);
  const eventsOf = openStoredEvents(db);
  const facts = openFacts({ db, trees, eventsOf });
  const shown = openShown(db);
  const settle = openStatus(db, { counts, facts, search });
  const places = openPlaces(db, facts);
  const events = openEvents(room, { eventsOf, settle, shown });
  return {
    heads,
    trees,
    revisions: openRevisionList(room),
    pictures,
    drafts: openDrafts(room, pictures),
    charts,
    counts,
    facts,
    factMaking: openFactMaking({ db, charts, eventsOf, facts }),
    expected: openExpected(db),
    shown: { isDue: shown.isDue },
    addJobs: openBulk(room, { counts, blocks: facts.blocks, codes: facts.codes, search }),
    events,
    past: openPast(room, events),
    jobs: openJobs(room, search, places),
    technicians: openTechnicians(room),
    instruments: openInstruments(room),
    settings: openSettings(room),
    tallies: openTallies(db),
    rebuild: openRebuild({ db, heads, trees, charts, events, places, settle, facts }),
  };
}

interface Sorted {
  readonly trees: TreeRevisions;
  readonly counts: Counts;
  readonly facts: Facts;
}

/** Adds a revision and makes it its tree's current one; sorts the tree's counts and facts again where it sorts otherwise. */
function openAddRevision(db: Room['db'], { trees, counts, facts }: Sorted) {
  return db.transaction((revision: NewRevision): TreeSummary => {
    const former = trees.current(revision.tree.id);
    const summary = trees.add(revision);
    if (former !== null && sortingOf(former) !== sortingOf(revision.tree)) {
      counts.sortAgain(revision.tree.id);
      facts.sortAgain(revision.tree.id);
    }
    return summary;
  }).immediate;
}
