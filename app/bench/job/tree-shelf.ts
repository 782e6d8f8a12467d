import type { History } from '../../../trees/belief/index.ts';
import { compileChart, type Chart } from '../../../trees/chart/index.ts';
import { readAndCheck, type Tree } from '../../../trees/document/index.ts';
import type { Asked, Session, Trouble } from '../../shell/index.ts';

/** A tree revision made ready for a walk. */
export interface ShelvedTree {
  readonly revisionId: string;
  readonly checksum: string;
  /** The document as it was written. */
  readonly text: string;
  readonly tree: Tree;
  readonly chart: Chart;
}

/** Where a job's tree, what the shop has seen of its units, and its pictures come from. */
export interface Shelf {
  tree(revisionId: string): Promise<Asked<ShelvedTree>>;
  /** What the shop has seen of a tree's units, as it is now. */
  history(tree: Tree): Promise<Asked<History>>;
  /** A revision's picture as a `data:` address. */
  picture(revisionId: string, file: string): Promise<Asked<string>>;
}

/** Reads, checks and compiles tree revisions of the shop's records; each once, as a revision never changes. */
export class TreeShelf implements Shelf {
  readonly #session: Session;
  readonly #trees = new Map<string, ShelvedTree>();
  readonly #pictures = new Map<string, Promise<Asked<string>>>();

  constructor(session: Session) {
    this.#session = session;
  }

  async tree(revisionId: string): Promise<Asked<ShelvedTree>> {
    const held = this.#trees.get(revisionId);
    if (held !== undefined) return { ok: true, value: held };
    const revision = await this.#session.ask((client, signal) =>
      client.trees.revision({ revisionId }, { signal }),
    );
    if (!revision.ok) return revision;
    const { text, checksum } = revision.value;
    const { tree, errors } = readAndCheck(text);
    if (tree === null) return { ok: false, trouble: unreadable(revisionId, errors[0]?.message ?? '') };
    const made = { revisionId, checksum, text, tree, chart: compileChart(tree) };
    this.#trees.set(revisionId, made);
    return { ok: true, value: made };
  }

  async history(tree: Tree): Promise<Asked<History>> {
    return this.#session.ask((client, signal) => client.history.of({ treeId: tree.id }, { signal }));
  }

  picture(revisionId: string, file: string): Promise<Asked<string>> {
    const key = `${revisionId}/${file}`;
    const held = this.#pictures.get(key);
    if (held !== undefined) return held;
    const asked = this.#readPicture(revisionId, file).then((picture) => {
      if (!picture.ok) this.#pictures.delete(key);
      return picture;
    });
    this.#pictures.set(key, asked);
    return asked;
  }

  async #readPicture(revisionId: string, file: string): Promise<Asked<string>> {
    const picture = await this.#session.ask((client, signal) =>
      client.trees.picture({ revisionId, file }, { signal }),
    );
    if (!picture.ok) return picture;
    return { ok: true, value: `data:${picture.value.media};base64,${picture.value.base64}` };
  }
}

function unreadable(revisionId: string, message: string): Trouble {
  return {
    code: 'TREE_UNREADABLE',
    message: `The job’s tree cannot be read: ${message}`,
    where: `tree revision ${revisionId}`,
    help: 'The job is kept as it is. Ask whoever looks after the trees to check this revision.',
  };
}
