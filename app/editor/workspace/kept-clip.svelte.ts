import { z } from 'zod';
import { clipSchema } from '../../../trees/edit/index.ts';
import { remember, remembered } from '../../shell/index.ts';

const KEPT = 'clip';

/** A clip and where its pictures can be had. */
const keptSchema = z.strictObject({
  clip: clipSchema,
  from: z.strictObject({ kind: z.enum(['draft', 'revision']), id: z.uuidv7() }),
});

export type Kept = z.output<typeof keptSchema>;

/** What was copied last, in any window of this machine. */
class KeptClip {
  #text = $state.raw(remembered(KEPT));
  readonly kept: Kept | null = $derived(read(this.#text));

  keep(kept: Kept): void {
    this.#text = JSON.stringify(kept);
    remember(KEPT, this.#text);
  }

  /** Follows what other windows copy until the returned function is called. */
  follow(): () => void {
    const look = () => (this.#text = remembered(KEPT) ?? this.#text);
    look();
    window.addEventListener('storage', look);
    return () => window.removeEventListener('storage', look);
  }
}

export const keptClip = new KeptClip();

function read(text: string | null): Kept | null {
  try {
    const kept = keptSchema.safeParse(JSON.parse(text ?? 'null'));
    return kept.success ? kept.data : null;
  } catch {
    return null;
  }
}
