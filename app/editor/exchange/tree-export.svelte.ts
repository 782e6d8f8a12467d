import { toScxml } from '../../../trees/chart/index.ts';
import { checkTree, type Tree } from '../../../trees/document/index.ts';
import type { DraftDocument } from '../../../trees/edit/index.ts';
import { bytesWords, saveFile } from '../../parts/index.ts';
import type { Session, Trouble } from '../../shell/index.ts';
import { orderProblems } from '../desk/order-problems.ts';
import { sayProblem } from '../desk/problem-words.ts';
import { bytesOfBase64, LARGEST_BYTES } from './file-base64.ts';

/** What is exported: a published revision, or a draft as it is kept now. */
export type Exported = { readonly revisionId: string } | { readonly draftId: string };

/** Exports a tree in one form or another, and says why where it cannot. */
export class TreeExport {
  readonly #session: Session;
  busy = $state(false);
  trouble = $state.raw<Trouble | null>(null);

  constructor(session: Session) {
    this.#session = session;
  }

  /** The tree and its pictures as one zip. `kept` waits until a draft's last edits are recorded. True where it was saved. */
  async zip(of: Exported, kept: () => Promise<boolean>): Promise<boolean> {
    this.busy = true;
    this.trouble = null;
    try {
      if (!(await this.isKept(kept))) return false;
      const file = await this.#session.ask((client, signal) => client.exchange.exportFile(of, { signal }));
      if (file.ok) this.#save(file.value.name, bytesOfBase64(file.value.base64));
      else this.trouble = file.trouble;
      return this.trouble === null;
    } finally {
      this.busy = false;
    }
  }

  #save(name: string, zip: Uint8Array<ArrayBuffer>): void {
    saveFile(name, zip, 'application/zip');
    if (zip.length > LARGEST_BYTES) this.trouble = tooLarge(zip.length);
  }

  /** Waits until a draft’s edits are recorded; says so where they are not to be. */
  async isKept(kept: () => Promise<boolean>): Promise<boolean> {
    const all = await kept();
    if (!all) this.trouble = NOT_KEPT;
    return all;
  }

  /** The tree as a statechart in SCXML. A tree with errors has none. */
  scxml(tree: Tree): boolean {
    const [error] = orderProblems(checkTree(tree))
      .filter(({ severity }) => severity === 'error')
      .map((problem) => sayProblem(JSON.parse(JSON.stringify(tree)) as DraftDocument, tree, problem));
    this.trouble =
      error === undefined
        ? null
        : {
            code: 'CHECK_FAILED',
            message: `A tree with errors is no statechart yet: ${error.message}`,
            where: error.where,
            help: 'Mend the errors that the checks show, then export it.',
          };
    if (error === undefined) saveFile(`${tree.id}.scxml`, toScxml(tree), 'application/scxml+xml');
    return error === undefined;
  }
}

const NOT_KEPT: Trouble = {
  code: 'NOT_KEPT',
  message: 'Your last changes are not recorded yet, and would be missing.',
  where: '',
  help: 'Go back to the draft and see why they are not kept, then export it.',
};

function tooLarge(bytes: number): Trouble {
  return {
    code: 'REFUSED_FILE',
    message: `The file was saved. It has ${bytesWords(bytes)}, and a shop takes in at most ${bytesWords(LARGEST_BYTES)}.`,
    where: '',
    help: 'To hand the tree on, make its largest pictures smaller and export it again.',
  };
}
