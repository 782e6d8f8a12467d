import type { Session, Trouble } from '../../shell/index.ts';
import { asShopHasIt, type Standing } from './as-shop-has-it.ts';
import { fileBase64 } from './file-base64.ts';

/** A draft that a file has become. `known` says how it stands to the tree where the shop has that. */
export interface Imported {
  readonly draftId: string;
  readonly name: string;
  readonly known: Standing | null;
}

/** Takes a file in as a draft, one at a time, and says why where it is not taken. */
export class TreeImport {
  readonly #session: Session;
  /** Name of the file that is being taken in; empty where none is. */
  reading = $state('');
  trouble = $state.raw<Trouble | null>(null);

  constructor(session: Session) {
    this.#session = session;
  }

  /** The draft that the file has become; null where it was not taken in, and {@link TreeImport.trouble} says why. */
  async take(files: Iterable<File>): Promise<Imported | null> {
    const [file, ...others] = files;
    const technicianId = this.#session.technician?.id;
    if (file === undefined || this.reading !== '') return null;
    if (others.length > 0) return this.#refuse(ONE_AT_A_TIME);
    if (technicianId === undefined) return this.#refuse(NOBODY);
    this.reading = file.name;
    this.trouble = null;
    try {
      const base64 = await fileBase64(file);
      if (!base64.ok) return this.#refuse(base64.trouble);
      const request = { technicianId, name: file.name, base64: base64.value };
      const draft = await this.#session.ask((client, signal) =>
        client.exchange.importFile(request, { signal }),
      );
      if (!draft.ok) return this.#refuse(draft.trouble);
      const { draftId } = draft.value.draft;
      const standing = await asShopHasIt(this.#session, draft.value);
      // The file is taken in by now: what cannot be compared is seen in the draft.
      return { draftId, name: file.name, known: standing.ok ? standing.value : null };
    } finally {
      this.reading = '';
    }
  }

  #refuse(trouble: Trouble): null {
    this.trouble = { ...trouble, where: '' };
    return null;
  }
}

const ONE_AT_A_TIME: Trouble = {
  code: 'REFUSED_FILE',
  message: 'One tree is taken in at a time.',
  where: '',
  help: 'Choose one file. A tree’s pictures come in one zip with it.',
};

const NOBODY: Trouble = {
  code: 'NOT_FOUND',
  message: 'Nobody is at work here yet, and a draft is recorded with a name.',
  where: '',
  help: 'Say who is at work, at the top of the window, then take the file in.',
};
