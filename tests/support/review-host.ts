import { setTimeout as sleep } from 'node:timers/promises';
import { createRouterClient } from '@orpc/server';
import { openServices } from '../../main/services/index.ts';
import type { ReviewPage } from '../../main/contract/index.ts';
import type { ReviewFilter } from '../../trees/review/index.ts';

/** What the process that runs the services is asked: a page of this filter; or, null, to say when it has been at rest for a while. */
export interface PageAsked {
  readonly filter: ReviewFilter | null;
}

/** Its answer: how long the page took, the whole process' processor time for it, and the memory it holds and ever held. */
export interface PageGiven {
  readonly page: ReviewPage;
  readonly ms: number;
  readonly cpuMs: number;
  readonly rssMiB: number;
  readonly mostMiB: number;
}

// A process of its own with a file and the moment that it is there: the services as a host has them, asked by messages.
const [file = '', now = '0'] = process.argv.slice(2);
const services = await openServices({ file, host: 'loopback', clock: () => Number(now) });
const client = createRouterClient(services.router);
await client.shop.open();

process.on('message', ({ filter }: PageAsked) => void (filter === null ? rest() : answer(filter)));
// Without the backup that closing the services makes: a shop of a million jobs is not copied for a benchmark.
process.on('disconnect', () => process.exit(0));
process.send?.('open');

async function answer(filter: ReviewFilter): Promise<void> {
  const [start, cpu] = [performance.now(), process.cpuUsage()];
  const page = await client.review.figures(filter);
  const ms = performance.now() - start;
  const { user, system } = process.cpuUsage(cpu);
  const given: PageGiven = {
    page,
    ms,
    cpuMs: (user + system) / 1000,
    rssMiB: process.memoryUsage.rss() / 2 ** 20,
    mostMiB: process.resourceUsage().maxRSS / 1024,
  };
  process.send?.(given);
}

/** Says so once it has done nothing for two seconds, at the earliest after the time that the thread waits before it warms. */
async function rest(): Promise<void> {
  await sleep(4000);
  for (let busyMs = Infinity; busyMs > 100;) {
    const cpu = process.cpuUsage();
    await sleep(2000);
    const { user, system } = process.cpuUsage(cpu);
    busyMs = (user + system) / 1000;
  }
  process.send?.('at rest');
}
