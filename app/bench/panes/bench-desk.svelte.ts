import { createContext } from 'svelte';
import { hashOf, place } from '../../shell/route.svelte.ts';
import type { Session } from '../../shell/session.ts';
import { OpenJob } from '../job/open-job.svelte.ts';
import { TreeShelf } from '../job/tree-shelf.ts';
import { BenchTabs } from './bench-tabs.svelte.ts';

/** The bench of this window: its tabs, the jobs read for them, and which pane takes the keys. */
export class BenchDesk {
  readonly session: Session;
  readonly shelf: TreeShelf;
  readonly tabs = new BenchTabs();
  readonly #jobs = new Map<string, OpenJob>();
  /** 0 or 1: the pane that takes the keys. */
  active = $state(0);

  constructor(session: Session) {
    this.session = session;
    this.shelf = new TreeShelf(session);
  }

  /** The open job of a pane; read when it is first shown. */
  job(id: string): OpenJob {
    const held = this.#jobs.get(id);
    if (held !== undefined) return held;
    const made = new OpenJob(id, this.session, this.shelf);
    this.#jobs.set(id, made);
    void made.read().then(() => this.#tab(made));
    return made;
  }

  /** Shows one job, or two beside each other. */
  show(...ids: readonly string[]): void {
    place.go(hashOf('bench', 'jobs', ...ids.slice(0, 2)));
  }

  /** Takes a job's tab away and shows what is left of `shown`. */
  leave(id: string, shown: readonly string[]): void {
    this.tabs.leave(id);
    this.#jobs.delete(id);
    const left = shown.filter((one) => one !== id);
    this.active = 0;
    if (left.length > 0) this.show(...left);
    else if (shown.includes(id)) place.go(hashOf('bench'));
  }

  #tab(open: OpenJob): void {
    if (open.job === null) return;
    const { serial, symptomTitle } = open.job.job;
    this.tabs.open({ id: open.id, serial, symptom: symptomTitle });
  }
}

export const [useBench, provideBench] = createContext<BenchDesk>();
