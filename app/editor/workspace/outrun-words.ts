import type { Trouble } from '../../shell/index.ts';

/** So many edits, as a button speaks of them. */
export function editsWords(edits: number): string {
  return edits === 1 ? 'this 1 edit' : `these ${String(edits)} edits`;
}

/** What has come between a draft and this window, and how the edits of this window stand. */
export function outrunWords(
  trouble: Trouble,
  edits: number,
): { readonly message: string; readonly help: string } {
  const one = edits === 1;
  const count = one ? '1 edit of this window is' : `${String(edits)} edits of this window are`;
  switch (trouble.code) {
    case 'STALE_DRAFT':
      return {
        message: 'This draft has been edited in another window since it was read here.',
        help: `${count} not recorded. ${one ? 'It stays' : 'They stay'} here until you say what becomes of ${one ? 'it' : 'them'}.`,
      };
    case 'NOT_FOUND':
      return {
        message: trouble.message,
        help: `${count} not recorded, and cannot be in this draft any more. Nothing further can be changed in it. ${trouble.help}`,
      };
    default:
      return { message: trouble.message, help: `${count} not recorded. ${trouble.help}` };
  }
}
