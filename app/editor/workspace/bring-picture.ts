import { at, drop, put, type Change } from '../../../trees/edit/index.ts';
import { voice } from '../../shell/index.ts';
import type { EditorDesk } from '../desk/editor-desk.svelte.ts';

/** Where what is on a desk, or was copied from one, is kept. */
export interface Source {
  readonly kind: 'draft' | 'revision';
  readonly id: string;
}

/** Where what is on a desk is kept. */
export function sourceOf({ opened }: EditorDesk): Source {
  return opened.kind === 'draft'
    ? { kind: 'draft', id: opened.full.draft.draftId }
    : { kind: 'revision', id: opened.revision.revisionId };
}

/**
 * Takes a picture of the tree that was copied from into the one on the desk, for the tests pasted. Where its name is another
 * picture's here, they get its new name; where it cannot be had, they show none, so that none shows another board.
 */
export async function bringPicture(
  desk: EditorDesk,
  from: Source,
  file: string,
  pasted: readonly string[],
): Promise<void> {
  const { opened } = desk;
  const here = sourceOf(desk);
  if (opened.kind !== 'draft' || (here.kind === from.kind && here.id === from.id)) return;
  const taken = await takenIn(desk, opened.full.draft.draftId, from, file);
  const changes = shown(desk, file, pasted, taken.ok ? taken.value.file : null);
  desk.edit('Paste', changes, { joins: 'paste' });
  if (!taken.ok) {
    desk.refusal = `The picture ${file} did not come along, and what was pasted is without it. ${taken.trouble.message}`;
    voice.say(desk.refusal);
  }
}

async function takenIn({ session }: EditorDesk, draftId: string, from: Source, file: string) {
  const picture = await session.ask((client, signal) =>
    from.kind === 'draft'
      ? client.drafts.picture({ draftId: from.id, file }, { signal })
      : client.trees.picture({ revisionId: from.id, file }, { signal }),
  );
  if (!picture.ok) return picture;
  const { base64 } = picture.value;
  return session.ask((client, signal) => client.drafts.addPicture({ draftId, file, base64 }, { signal }));
}

/** The changes by which those of the tests that show `file` show `instead`, or nothing. */
function shown(
  { document }: EditorDesk,
  file: string,
  tests: readonly string[],
  instead: string | null,
): readonly Change[] {
  return tests.flatMap((test) => {
    const path = ['tests', test, 'picture', 'file'];
    if (at(document, path) !== file || instead === file) return [];
    return instead === null ? drop(document, path.slice(0, -1)) : put(document, path, instead);
  });
}
