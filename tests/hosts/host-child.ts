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
// Before the line is printed, since whoever reads it may send the signal at once.
if (host.kind === 'started') process.once('SIGTERM', () => void host.close());
const address = host.kind === 'found' ? host.address : host.freshAddress();
console.log(JSON.stringify({ kind: host.kind, address }));
