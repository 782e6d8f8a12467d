import { join } from 'node:path';
import { findBrowser, openBrowser, readPage, startLoopbackHost } from '../loopback/index.ts';
import { openServices } from '../services/index.ts';
import { hasScreen } from './desktop.ts';

export interface ServeOptions {
  /** The repository's folder. */
  readonly top: string;
  /** The database. */
  readonly file: string;
  /** The user-data folder: the browser keeps this app's profile there. */
  readonly userData: string;
  readonly open: boolean;
  readonly say: (line: string) => void;
}

/**
 * Runs the browser host for a database, or finds the one that runs already, and opens it in this machine's browser. Gives the exit
 * status, or `null` while the host goes on running; it then ends at Ctrl+C (SIGINT, SIGTERM, SIGHUP), with the backup on quit.
 */
export async function serve(options: ServeOptions): Promise<number | null> {
  const { file, top, say } = options;
  const page = readPage(join(top, 'out', 'renderer'));
  if (page === null) throw new Error(`${top} has no built page, though it was just built.`);
  const host = await startLoopbackHost({
    instanceFile: `${file}.instance`,
    page,
    openServices: () => openServices({ file, host: 'loopback' }),
    now: () => performance.now(),
    report: (error) => console.error(error),
  });
  if (host.kind === 'found') {
    await show(options, () => host.address);
    return 0;
  }
  endAtSignal(host.close, say);
  await show(options, host.freshAddress);
  if (options.open) say('It goes on running here until you press Ctrl+C.');
  return null;
}

/** Opens the browser, or says the address where it was told not to or there is none. `address` is taken once for each try. */
async function show(options: ServeOptions, address: () => string): Promise<void> {
  const { open, userData, say } = options;
  const { platform, env } = process;
  const print = (): void => say(`Ohmward is at ${address()}`);
  if (!open) return print();
  const browser = hasScreen({ platform, env }) ? findBrowser({ platform, env }) : null;
  if (browser === null) {
    say(`${hasScreen({ platform, env }) ? NO_BROWSER : 'There is no screen here.'} ${BY_HAND}`);
    return print();
  }
  const asRoot = process.getuid?.() === 0;
  const failure = await openBrowser({
    browser,
    profile: join(userData, 'browser'),
    address: address(),
    asRoot,
  });
  if (failure === null) return say(`Ohmward is open in ${browser}.`);
  say(`${browser} did not open: ${failure}. ${BY_HAND}`);
  print();
}

const NO_BROWSER =
  'No browser of the Chromium family was found: install Chromium, Chrome or Edge, or name one in OHMWARD_BROWSER.';
const BY_HAND = 'The address below can be opened by hand, once, within five minutes.';

/** Both npm and the terminal send Ctrl+C, so the second signal must not cut the backup short. */
function endAtSignal(close: () => Promise<void>, say: (line: string) => void): void {
  let ending = false;
  const end = (): void => {
    if (ending) return;
    ending = true;
    say('Closing Ohmward …');
    close().then(
      () => process.exit(0),
      (error: unknown) => {
        console.error(error);
        process.exit(1);
      },
    );
  };
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.on(signal, end);
}
