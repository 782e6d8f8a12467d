import { homedir } from 'node:os';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { databaseFile, userDataFolder } from '../services/index.ts';
import { ensureBuilt } from './build.ts';
import { runDesktop, whyNoWindow } from './desktop.ts';
import { findOrFetchRuntime, type ElectronRuntime } from './electron-runtime.ts';
import { serve } from './serve.ts';

const TOP = fileURLToPath(new URL('../..', import.meta.url));

const USAGE = `npm start -- [--db FILE] [--host desktop|loopback] [--no-open]
Opens Ohmward in a window of its own, or else in this machine's browser.
  --db FILE     work with this database; without it, the one in your user-data folder
  --host HOST   desktop: a window of its own or nothing; loopback: the browser
  --no-open     do not open the browser, only print the address to open (loopback)
  --help        print this`;

interface Asked {
  readonly db: string | undefined;
  readonly open: boolean;
  readonly host: 'desktop' | 'loopback' | undefined;
}

interface Place {
  readonly file: string;
  readonly userData: string;
}

const say = (line: string): void => console.log(line);

/** Gives the exit status, or `null` while the browser host goes on running. */
async function main(args: readonly string[]): Promise<number | null> {
  const asked = parse(args);
  if (asked === 'help') return tell(0, USAGE);
  if (typeof asked === 'string') return tell(2, `${asked}\n\n${USAGE}`);
  const built = await ensureBuilt(TOP, say);
  if (!built.ok) return tell(1, `${built.message}\n${built.help}`);
  const place = findPlace(asked.db);
  if (typeof place === 'string') return tell(1, place);
  return openIn(asked, place);
}

/** The database and the user-data folder, or what is wrong with where they should be. */
function findPlace(db: string | undefined): Place | string {
  const machine = { platform: process.platform, env: process.env, home: homedir() };
  try {
    return { file: databaseFile(db, machine), userData: userDataFolder(machine) };
  } catch (error) {
    if (!(error instanceof Error && 'code' in error)) throw error;
    return `The folder for the database cannot be made: ${error.message}\nName a file in another folder with --db FILE.`;
  }
}

async function openIn(asked: Asked, place: Place): Promise<number | null> {
  const shop = { ...place, top: TOP, say };
  if (asked.host === 'loopback' || !asked.open) return serve({ ...shop, open: asked.open });
  const runtime = await desktopRuntime();
  if (runtime.kind === 'present') return runDesktop(runtime.executable, TOP, shop.file);
  if (asked.host === 'desktop')
    return tell(1, `No window of its own: ${runtime.because}.\nWithout --host it opens in the browser.`);
  say(`Ohmward goes to the browser, since it can have no window of its own: ${runtime.because}.`);
  return serve({ ...shop, open: true });
}

function parse(args: readonly string[]): Asked | 'help' | string {
  try {
    const { values } = parseArgs({
      args: [...args],
      options: {
        db: { type: 'string' },
        host: { type: 'string' },
        'no-open': { type: 'boolean' },
        help: { type: 'boolean' },
      },
    });
    const { db, host, help, 'no-open': noOpen = false } = values;
    if (help === true) return 'help';
    if (db === '') return '--db needs the name of a file.';
    if (host !== undefined && host !== 'desktop' && host !== 'loopback') return `There is no host "${host}".`;
    if (host === 'desktop' && noOpen) return '--no-open goes with the loopback host only.';
    return { db, host, open: !noOpen };
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
}

async function desktopRuntime(): Promise<ElectronRuntime> {
  const because = whyNoWindow({
    platform: process.platform,
    env: process.env,
    asRoot: process.getuid?.() === 0,
  });
  return because === null
    ? findOrFetchRuntime({ top: TOP, now: Date.now, say })
    : { kind: 'absent', because };
}

function tell(status: number, words: string): number {
  (status === 0 ? console.log : console.error)(words);
  return status;
}

const status = await main(process.argv.slice(2));
if (status !== null) process.exitCode = status;
