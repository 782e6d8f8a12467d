import { createContext } from 'svelte';
import { hashOf, place, type Session } from '../../shell/index.ts';
import { shopKeeper } from '../job/job-keeper.ts';
import { OpenJob } from '../job/open-job.svelte.ts';
import { TreeShelf } from '../job/tree-shelf.ts';
import { OpenJobs } from '../job/open-jobs.ts';
import { Planner } from '../planner/planner.svelte.ts';
import { startWorker } from '../planner/planner-thread.ts';
import { BenchTabs } from './bench-tabs.svelte.ts';

/** The bench of this window: its tabs, the jobs read for them, and which pane takes the keys. */
export class BenchDesk {
  readonly session: Session;
  readonly tabs = new BenchTabs();
  readonly planner = new Planner(startWorker);
  readonly #jobs: OpenJobs;
  /** 0 or 1: the pane that takes the keys. */
  active = $state(0);

  constructor(session: Session) {
    this.session = session;
    const shelf = new TreeShelf(session);
    const keeper = shopKeeper(session);
    this.#jobs = new OpenJobs((id) => new OpenJob(id, keeper, shelf));
  }

  /** The open job of a pane; {@link BenchDesk.read} fills it. */
  job(id: string): OpenJob {
    return this.#jobs.get(id);
  }

  /** Reads the jobs that come into view, again where they were read before: others may have added to them. */
  async read(jobs: readonly OpenJob[]): Promise<void> {
    await Promise.all(jobs.map(async (open) => open.read().then(() => this.#tab(open))));
  }

  /** Shows one job, or two beside each other. */
  show(...ids: readonly string[]): void {
    place.go(hashOf('bench', 'jobs', ...ids.slice(0, 2)));
  }

  /** Takes a job's tab away and shows what is left of `shown`. */
  leave(id: string, shown: readonly string[]): void {
    this.tabs.leave(id);
    this.#jobs.leave(id);
    const left = shown.filter((one) => one !== id);
    this.active = 0;
    if (left.length > 0) this.show(...left);
    else if (shown.includes(id)) place.go(hashOf('bench'));
  }

  /** Ends what runs beside the window. */
  stop(): void {
    this.planner.stop();
  }

  #tab(open: OpenJob): void {
    if (open.job === null) return;
    const { serial, symptomTitle } = open.job.job;
    this.tabs.open({ id: open.id, serial, symptom: symptomTitle });
  }
}

export const [useBench, provideBench] = createContext<BenchDesk>();
