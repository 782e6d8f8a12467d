import type { DraftEntry } from '../../trees/edit/index.ts';
import { instant } from './clock.ts';
import type { Room } from './database.ts';
import type { NewPicture, Pictures } from './pictures.ts';

/** A draft to be begun: on a revision's text, on bytes of its own, or on bytes of its own that stand on a revision. */
export interface NewDraft {
  readonly treeId: string;
  readonly baseRevision: string | null;
  readonly baseBytes: Uint8Array | null;
  readonly technicianId: string;
  readonly pictures?: readonly NewPicture[];
}

/** A draft as the records have it. */
export interface StoredDraft {
  readonly draftId: string;
  readonly treeId: string;
  /** The revision that it began on; null where its tree was not published then. */
  readonly begunOn: string | null;
  /** The revision that it stands on now, after merges. */
  readonly base: string | null;
  /** The tree's current revision; null where it has none yet. */
  readonly current: string | null;
  readonly technicianId: string;
  readonly technician: string;
  readonly startedAt: string;
  readonly lastAt: string;
  readonly entries: number;
  /** 1 where it began as bytes of its own over a revision, as a file does that is taken in. */
  readonly ownBytes: 0 | 1;
  readonly ended: 'discarded' | 'published' | null;
}

/** Entries to be added, the first of them with this number. */
export interface NewEntries {
  readonly draftId: string;
  readonly seq: number;
  readonly technicianId: string;
  readonly entries: readonly DraftEntry[];
}

/** How a draft ends, and by whom. */
export type DraftEnd = { readonly draftId: string; readonly technicianId: string } & (
  | { readonly how: 'discarded'; readonly revisionId: null }
  | { readonly how: 'published'; readonly revisionId: string }
);

interface EntryRow {
  readonly kind: DraftEntry['kind'];
  readonly body: string;
}

const DRAFT = `SELECT draft.id AS draftId, draft.tree_id AS treeId, base_revision AS begunOn,
    coalesce((SELECT body ->> '$.revisionId' FROM draft_entry WHERE draft_id = draft.id AND kind = 'rebase'
      ORDER BY seq DESC LIMIT 1), base_revision) AS base,
    tree_head.revision_id AS current, draft.technician_id AS technicianId, name AS technician, started_at AS startedAt,
    coalesce((SELECT at FROM draft_entry WHERE draft_id = draft.id ORDER BY seq DESC LIMIT 1), started_at) AS lastAt,
    coalesce((SELECT max(seq) + 1 FROM draft_entry WHERE draft_id = draft.id), 0) AS entries,
    base_revision IS NOT NULL AND base_bytes IS NOT NULL AS ownBytes, how AS ended
  FROM draft JOIN technician ON technician.id = draft.technician_id
    LEFT JOIN tree_head ON tree_head.tree_id = draft.tree_id LEFT JOIN draft_ended ON draft_ended.draft_id = draft.id`;

export type Drafts = ReturnType<typeof openDrafts>;

/** Drafts of trees: a draft is its base and its list of entries. Whatever writes is durable when it returns. */
export function openDrafts(room: Room, pictures: Pictures) {
  const { db } = room;
  const byId = db.prepare<[string], StoredDraft>(`${DRAFT} WHERE draft.id = ?`);
  const inHand = db.prepare<[], StoredDraft>(`${DRAFT} WHERE how IS NULL ORDER BY draft.id DESC`);
  const baseOf = db
    .prepare<[string], Buffer>(
      `SELECT coalesce(base_bytes, bytes) FROM draft LEFT JOIN tree_revision ON tree_revision.id = base_revision
       WHERE draft.id = ?`,
    )
    .pluck();
  const entriesFrom = db.prepare<[string, number], EntryRow>(
    'SELECT kind, body FROM draft_entry WHERE draft_id = ? AND seq >= ? ORDER BY seq',
  );
  const find = (draftId: string): StoredDraft | null => byId.get(draftId) ?? null;
  return {
    find,
    /** The drafts that have not ended, those begun last first. */
    inHand: (): readonly StoredDraft[] => inHand.all(),
    /** The text that a draft began as. */
    baseText: (draftId: string): string => baseOf.get(draftId)?.toString('utf8') ?? '',
    /** A draft's entries, those from number `from` on. */
    entries: (draftId: string, from = 0): DraftEntry[] => entriesFrom.all(draftId, from).map(entry),
    ...openWriting(room, pictures, find),
  };
}

function openWriting({ db, ids, clock }: Room, pictures: Pictures, find: (id: string) => StoredDraft | null) {
  const insertDraft = db.prepare<[string, string, string | null, Uint8Array | null, string, string]>(
    `INSERT INTO draft (id, tree_id, base_revision, base_bytes, technician_id, started_at) VALUES (?, ?, ?, ?, ?, ?)`,
  );
  const insertEntry = db.prepare<[string, string, number, string, string, string, string]>(
    'INSERT INTO draft_entry (id, draft_id, seq, at, technician_id, kind, body) VALUES (?, ?, ?, ?, ?, ?, ?)',
  );
  const insertEnd = db.prepare<[string, DraftEnd['how'], string | null, string, string]>(
    'INSERT INTO draft_ended (draft_id, how, revision_id, technician_id, at) VALUES (?, ?, ?, ?, ?)',
  );
  return {
    start: db.transaction((draft: NewDraft): StoredDraft => {
      const at = clock();
      const id = ids(at);
      insertDraft.run(id, draft.treeId, draft.baseRevision, draft.baseBytes, draft.technicianId, instant(at));
      for (const picture of draft.pictures ?? []) pictures.addToDraft(id, picture, instant(at));
      const begun = find(id);
      if (begun === null) throw new Error(`draft-missing: ${id} was begun just now`);
      return begun;
    }).immediate,
    /** All of the entries or none; refused where the draft has ended or has another number of entries. */
    append: db.transaction(({ draftId, seq, technicianId, entries }: NewEntries): boolean => {
      const draft = find(draftId);
      if (draft === null || draft.ended !== null || draft.entries !== seq) return false;
      const at = clock();
      for (const [index, { kind, ...body }] of entries.entries()) {
        insertEntry.run(ids(at), draftId, seq + index, instant(at), technicianId, kind, JSON.stringify(body));
      }
      return true;
    }).immediate,
    /** Ends a draft; refused where it has ended already. */
    end: db.transaction(({ draftId, how, revisionId, technicianId }: DraftEnd): boolean => {
      if (find(draftId)?.ended !== null) return false;
      insertEnd.run(draftId, how, revisionId, technicianId, instant(clock()));
      return true;
    }).immediate,
    /** Adds a picture under a file name that the draft does not use yet. */
    addPicture: db.transaction((draftId: string, picture: NewPicture): void => {
      pictures.addToDraft(draftId, picture, instant(clock()));
    }).immediate,
  };
}

function entry({ kind, body }: EntryRow): DraftEntry {
  return { kind, ...(JSON.parse(body) as object) } as DraftEntry;
}
