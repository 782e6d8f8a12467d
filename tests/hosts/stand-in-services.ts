import { implement } from '@orpc/server';
import { contract, type ShopState } from '../../main/contract/index.ts';
import type { Mounted } from '../../main/loopback/index.ts';

/**
 * A stand-in for the services, so that a host can be tested without a database. It answers `shop.open` (and calls `asked`), fails `backups.make`
 * with an expected failure and `trees.list` with a bug; `jobs.get` is never asked for.
 */
export function standInServices(host: 'desktop' | 'loopback', asked: () => void = () => undefined): Mounted {
  const shop = implement(contract);
  const bug = (): never => {
    throw new Error('a bug, with words that only the log may show');
  };
  const router = {
    shop: {
      open: shop.shop.open.handler(() => {
        asked();
        return shopState(host);
      }),
      addTechnician: shop.shop.addTechnician.handler(({ input }) => ({
        id: ID,
        name: input.name,
        retired: false,
      })),
      retireTechnician: shop.shop.retireTechnician.handler(bug),
      addInstrument: shop.shop.addInstrument.handler(bug),
      retireInstrument: shop.shop.retireInstrument.handler(bug),
      setHourlyRate: shop.shop.setHourlyRate.handler(bug),
    },
    trees: {
      list: shop.trees.list.handler(bug),
      revision: shop.trees.revision.handler(bug),
      picture: shop.trees.picture.handler(bug),
    },
    history: {
      of: shop.history.of.handler(bug),
      readings: shop.history.readings.handler(bug),
      jobs: shop.history.jobs.handler(bug),
    },
    drafts: {
      list: shop.drafts.list.handler(bug),
      start: shop.drafts.start.handler(bug),
      get: shop.drafts.get.handler(bug),
      append: shop.drafts.append.handler(bug),
      discard: shop.drafts.discard.handler(bug),
      picture: shop.drafts.picture.handler(bug),
      addPicture: shop.drafts.addPicture.handler(bug),
      history: shop.drafts.history.handler(bug),
      publish: shop.drafts.publish.handler(bug),
    },
    exchange: {
      importFile: shop.exchange.importFile.handler(bug),
      exportFile: shop.exchange.exportFile.handler(bug),
    },
    revisions: {
      list: shop.revisions.list.handler(bug),
      publishAgain: shop.revisions.publishAgain.handler(bug),
    },
    lock: {
      state: shop.lock.state.handler(bug),
      set: shop.lock.set.handler(bug),
      unlock: shop.lock.unlock.handler(bug),
    },
    review: {
      figures: shop.review.figures.handler(bug),
      jobs: shop.review.jobs.handler(bug),
    },
    jobs: {
      list: shop.jobs.list.handler(() => ({ jobs: [], next: null })),
      ofUnit: shop.jobs.ofUnit.handler(bug),
      start: shop.jobs.start.handler(bug),
      get: shop.jobs.get.handler(bug),
      append: shop.jobs.append.handler(bug),
    },
    backups: {
      make: shop.backups.make.handler(({ errors }) => {
        throw errors.DISK_FULL({
          message: 'The disk is full.',
          data: { where: 'shop.sqlite', help: 'Make room.' },
        });
      }),
      restore: shop.backups.restore.handler(bug),
    },
  };
  return { router: shop.router(router), close: async () => undefined };
}

const ID = '01890a5d-ac96-774b-bcce-b302099a8057';

const shopState = (host: 'desktop' | 'loopback'): ShopState => ({
  state: 'ready',
  database: 'shop.sqlite',
  invented: false,
  host,
  technicians: [],
  instruments: [],
  hourlyRate: null,
  openJobs: 0,
  closedJobs: 0,
  integrity: 'checking',
  backups: [],
});
