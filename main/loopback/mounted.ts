import type { Router } from '@orpc/server';
import type { contract } from '../contract/index.ts';

/** The services as a host needs them: the router to mount, and how to end. */
export interface Mounted {
  readonly router: Router<typeof contract, Record<never, never>>;
  /** Makes the backup on quit and closes the records. */
  readonly close: () => Promise<void>;
}
