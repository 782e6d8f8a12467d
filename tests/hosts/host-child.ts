import { readPage, startLoopbackHost } from '../../main/loopback/index.ts';
import { standInServices } from './stand-in-services.ts';

// A loopback host in a process of its own, with stand-in services: prints one line of JSON, then runs until SIGTERM.
const [instanceFile = '', renderer = ''] = process.argv.slice(2);
const page = readPage(renderer);
if (page === null) throw new Error(`no page in ${renderer}`);
const host = await startLoopbackHost({
  instanceFile,
  page,
  openServices: async () => standInServices('loopback'),
  now: () => performance.now(),
  report: console.error,
});
console.log(
  JSON.stringify({ kind: host.kind, address: host.kind === 'found' ? host.address : host.freshAddress() }),
);
if (host.kind === 'started') process.once('SIGTERM', () => void host.close());
