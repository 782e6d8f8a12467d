import type { OpenJob } from './open-job.svelte.ts';
import { rooted, type Rooted } from './rooted.svelte.ts';

/** The jobs open in this window, each made once, however many panes and sheets show it. */
export class OpenJobs {
  readonly #make: (id: string) => OpenJob;
  readonly #held = new Map<string, Rooted<OpenJob>>();

  constructor(make: (id: string) => OpenJob) {
    this.#make = make;
  }

  get(id: string): OpenJob {
    const held = this.#held.get(id) ?? rooted(() => this.#make(id));
    this.#held.set(id, held);
    return held.value;
  }

  leave(id: string): void {
    this.#held.get(id)?.stop();
    this.#held.delete(id);
  }
}
