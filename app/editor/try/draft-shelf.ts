import type { History } from '../../../trees/belief/index.ts';
import type { Shelf, ShelvedTree } from '../../bench/index.ts';
import type { Asked } from '../../shell/index.ts';

/** A picture of the draft as a `data:` address, by its file. */
export type Pictures = (file: string) => Promise<Asked<string>>;

/** A shelf with nothing on it but one draft. Its pictures are asked for once each. */
export function draftShelf(draft: ShelvedTree, history: History, pictures: Pictures): Shelf {
  const asked = new Map<string, Promise<Asked<string>>>();
  return {
    tree: async () => ({ ok: true, value: draft }),
    history: async () => ({ ok: true, value: history }),
    picture(_, file) {
      const picture = asked.get(file) ?? pictures(file);
      asked.set(file, picture);
      return picture;
    },
  };
}
