import { hashOf, unrecorded, type Asked, type Session } from '../../shell/index.ts';
import { titled } from './part-words.ts';
import { EditorDesk } from './editor-desk.svelte.ts';
import { openedDraft } from './opened-draft.ts';
import { readAgain, type Again, type ReadAgain } from './read-again.ts';

/** A draft that was opened in this window. */
interface OpenDraft {
  readonly draftId: string;
  readonly desk: EditorDesk;
  /** Ends the watch over what is not recorded of it. */
  readonly unwatch: () => void;
}

/**
 * The drafts opened in this window. One that is left stays here with what was done in it until all of that is recorded, so that
 * going to another area loses nothing: its keeper goes on trying, and who comes back finds the same desk.
 */
class OpenDrafts {
  #open: readonly OpenDraft[] = [];
  #shown = new Set<EditorDesk>();

  /** Opens a draft to be shown: as it was left where that is not all recorded yet, else read from the records. */
  async open(session: Session, draftId: string): Promise<Asked<EditorDesk>> {
    const held = this.#open.find((one) => one.draftId === draftId && one.desk.keeper?.pending === true);
    if (held !== undefined) return this.#show(held.desk);
    const opened = await openedDraft(session, draftId);
    if (!opened.ok) return opened;
    return this.#showNew(draftId, new EditorDesk(session, opened.value));
  }

  /**
   * Reads a shown draft again that has gone on elsewhere, with what becomes of the edits that wait here as `how` says. Where it was read,
   * the desk it comes on is shown and the former one let go of; else that stays with all that waits on it.
   */
  async readAgain(held: EditorDesk, draftId: string, how: Again): Promise<Asked<ReadAgain>> {
    const read = await readAgain(held, draftId, how);
    if (!read.ok || read.value.kind === 'left') return read;
    this.#shown.delete(held);
    held.keeper?.giveUp();
    this.#showNew(draftId, read.value.desk);
    return read;
  }

  /** A draft is shown no more; what is not recorded of it is kept. */
  leave(desk: EditorDesk): void {
    this.#shown.delete(desk);
    desk.asking = null;
    this.#putAway();
  }

  /** Lets go of a draft with all that could not be recorded of it, as where it has gone on or ended elsewhere. */
  giveUp(draftId: string): void {
    for (const one of this.#open) if (one.draftId === draftId) one.desk.keeper?.giveUp();
    this.#putAway();
  }

  #showNew(draftId: string, desk: EditorDesk): Asked<EditorDesk> {
    this.#open = [...this.#open, { draftId, desk, unwatch: watched(draftId, desk) }];
    return this.#show(desk);
  }

  #show(desk: EditorDesk): Asked<EditorDesk> {
    this.#shown.add(desk);
    this.#putAway();
    return { ok: true, value: desk };
  }

  /** Puts away what is neither shown nor has anything to be recorded. */
  #putAway(): void {
    const done = ({ desk }: OpenDraft): boolean => !this.#shown.has(desk) && desk.keeper?.pending !== true;
    for (const one of this.#open) if (done(one)) one.unwatch();
    this.#open = this.#open.filter((one) => !done(one));
  }
}

export const openDrafts = new OpenDrafts();

function watched(draftId: string, desk: EditorDesk): () => void {
  return unrecorded.watch({
    get title() {
      return `draft of “${titled(desk.tree.title)}”`;
    },
    hash: hashOf('trees', 'draft', draftId),
    get pending() {
      return desk.keeper?.pending ?? false;
    },
    get trouble() {
      return desk.keeper?.trouble ?? null;
    },
    get isOutrun() {
      return desk.keeper?.isOutrun ?? false;
    },
    get edits() {
      return desk.keeper?.edits ?? 0;
    },
    again: () => void desk.keeper?.send(),
    giveUp: () => openDrafts.giveUp(draftId),
  });
}
