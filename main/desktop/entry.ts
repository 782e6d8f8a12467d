import { mkdirSync } from 'node:fs';
import { homedir } from 'node:os';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { app, dialog } from 'electron';
import { readPage } from '../loopback/index.ts';
import { databaseFile, openServices } from '../services/index.ts';
import { acceptConnections } from './connect.ts';
import { guardContents, guardSession } from './guard.ts';
import { setMenu } from './menu.ts';
import { registerScheme, servePage } from './scheme.ts';
import { focusWindow, openWindow } from './window.ts';

const built = (path: string): string => fileURLToPath(new URL(path, import.meta.url));
const RENDERER = built('../renderer');
const PRELOAD = built('../preload/index.cjs');

const report = (error: unknown): void => process.emitWarning(error instanceof Error ? error : String(error));

function open(): void {
  const file = databaseFile(databaseGiven(process.argv), {
    platform: process.platform,
    env: process.env,
    home: homedir(),
  });
  // The lock below holds for one such folder, so that each database has one window of its own.
  const windowFolder = `${file}.window`;
  mkdirSync(windowFolder, { recursive: true, mode: 0o700 });
  app.setPath('userData', windowFolder);
  if (!app.requestSingleInstanceLock()) return app.quit();
  registerScheme();
  guardContents();
  app.on('second-instance', () => focusWindow());
  app.on('window-all-closed', () => {
    if (process.platform !== 'darwin') app.quit();
  });
  void app
    .whenReady()
    .then(() => start(file))
    .catch(fail);
}

/** Chromium's own switches stand among the arguments, so only the one that is ours is looked for. */
function databaseGiven(args: readonly string[]): string | undefined {
  const { values } = parseArgs({ args: args.slice(1), options: { db: { type: 'string' } }, strict: false });
  return typeof values.db === 'string' ? values.db : undefined;
}

function start(file: string): void {
  const page = readPage(RENDERER);
  if (page === null) throw new Error(`There is no built app in ${RENDERER}. Run npm run build.`);
  const services = openServices({ file, host: 'desktop' });
  services.catch(fail);
  guardSession();
  servePage(page);
  acceptConnections(services, report);
  setMenu(process.platform);
  app.on('activate', () => focusWindow() || openWindow(PRELOAD));
  closeBeforeQuitting(async () => (await services).close());
  openWindow(PRELOAD);
}

/** Holds the end up, once the window is closed, until the backup on quit is made and the records are closed. */
function closeBeforeQuitting(close: () => Promise<void>): void {
  let closed = false;
  app.on('will-quit', (event) => {
    if (closed) return;
    event.preventDefault();
    void close()
      .catch(report)
      .then(() => {
        closed = true;
        app.quit();
      });
  });
}

function fail(error: unknown): void {
  dialog.showErrorBox('Ohmward could not start', error instanceof Error ? error.message : String(error));
  app.exit(1);
}

try {
  open();
} catch (error) {
  fail(error);
}
