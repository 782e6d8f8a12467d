import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { chromium, type Browser, type BrowserContext } from '@playwright/test';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it, vi } from 'vitest';
import { ensureBuilt } from '../../main/command/build.ts';
import { systemBrowser } from '../support/browser.ts';
import { app, leaveStage, type BrowserWindow, type Stage } from '../support/electron-stand-in.ts';
import { connectAs, freshFile, startDesktop } from './desktop-support.ts';

vi.mock('electron', () => import('../support/electron-stand-in.ts'));

let browser: Browser;
let context: BrowserContext;

beforeAll(async () => {
  const built = await ensureBuilt(fileURLToPath(new URL('../..', import.meta.url)), console.log);
  if (!built.ok) throw new Error(`${built.message} ${built.help}`);
  const executablePath = systemBrowser();
  const args = process.getuid?.() === 0 ? ['--no-sandbox'] : [];
  browser = await chromium.launch({ ...(executablePath === undefined ? {} : { executablePath }), args });
}, 120_000);
afterAll(() => browser.close());
beforeEach(async () => {
  context = await browser.newContext();
});
afterEach(async () => {
  await leaveStage();
  await context.close();
});

function windowOf({ windows: [window] }: Stage): BrowserWindow {
  if (window === undefined) throw new Error('no window was opened');
  return window;
}

async function opened(file?: string) {
  const { stage, file: database } = await startDesktop(context, file);
  await vi.waitFor(() => windowOf(stage));
  const window = windowOf(stage);
  const { page, told } = await window.loaded.promise;
  return { stage, window, page, told, file: database };
}

const asPage = ({ webContents }: BrowserWindow) =>
  connectAs({ sender: webContents, senderFrame: webContents.mainFrame }).client;

describe('the desktop host, run against the stand-in', () => {
  it('shows the built app, which reaches the services through the preload’s port', async () => {
    const { page, told, stage } = await opened();
    await vi.waitFor(() => expect(told.join('\n')).toContain('"host":"desktop"'), { timeout: 10_000 });
    expect(await page.evaluate(() => Reflect.get(globalThis, 'ohmward'))).toEqual({ host: 'desktop' });
    expect((await page.locator('body').innerText()).trim()).not.toBe('');
    expect(stage.errors).toEqual([]);
  });

  it('opens its window with every setting of Electron’s security checklist', async () => {
    const { window, stage } = await opened();
    expect(window.options.webPreferences).toMatchObject({
      sandbox: true,
      contextIsolation: true,
      nodeIntegration: false,
      webSecurity: true,
      webviewTag: false,
    });
    expect(window.options.webPreferences).not.toHaveProperty('allowRunningInsecureContent');
    expect(window.options.webPreferences).not.toHaveProperty('experimentalFeatures');
    expect(stage.schemes).toEqual([
      { scheme: 'ohmward-app', privileges: { standard: true, secure: true, supportFetchAPI: true } },
    ]);
  });

  it('keeps the preload’s world apart from the page’s', async () => {
    const { page } = await opened();
    expect(
      await page.evaluate(() => ['require', 'standInPorts'].filter((name) => name in globalThis)),
    ).toEqual([]);
  });
});

describe('the page in the window', () => {
  it('breaks no rule of its policy while it starts', async () => {
    const broken: string[] = [];
    context.on('console', (message) => {
      if (message.text().includes('Content Security Policy')) broken.push(message.text());
    });
    const { told } = await opened();
    await vi.waitFor(() => expect(told.join('\n')).toContain('"host":"desktop"'), { timeout: 10_000 });
    expect(broken).toEqual([]);
  });

  it('cannot run a script that the host did not serve', async () => {
    const { page } = await opened();
    const ran = await page.evaluate(
      () =>
        new Promise((resolve) => {
          document.addEventListener('securitypolicyviolation', (event) => resolve(event.effectiveDirective));
          const script = document.createElement('script');
          script.textContent = 'document.title = "ran"';
          document.head.append(script);
        }),
    );
    expect(ran).toBe('script-src-elem');
    expect(await page.title()).not.toBe('ran');
  });

  it('cannot go elsewhere', async () => {
    const { page } = await opened();
    const before = page.url();
    const aborted = page.waitForEvent('requestfailed');
    await page.evaluate(() => void location.assign('https://evil.example/'));
    expect((await aborted).url()).toBe('https://evil.example/');
    expect(page.url()).toBe(before);
  });

  it('cannot reach the network, even where its policy would let it', async () => {
    const { stage } = await opened();
    const cancelled: unknown[] = [];
    const details = { url: 'https://evil.example/' } as Parameters<NonNullable<Stage['beforeRequest']>>[0];
    stage.beforeRequest?.(details, ({ cancel }) => cancelled.push(cancel));
    expect(cancelled).toEqual([true]);
  });

  it('cannot open a window and gets no permission', async () => {
    const { window, stage } = await opened();
    const asked = { url: 'https://evil.example/' } as Parameters<
      NonNullable<typeof window.webContents.openHandler>
    >[0];
    expect(window.webContents.openHandler?.(asked)).toEqual({ action: 'deny' });
    const granted: boolean[] = [];
    type Ask = NonNullable<Stage['permission']>;
    type Check = NonNullable<Stage['check']>;
    stage.permission?.(
      ...([null, 'media', (yes: boolean) => granted.push(yes), {}] as unknown as Parameters<Ask>),
    );
    const checked = stage.check?.(...([null, 'media', '', {}] as unknown as Parameters<Check>));
    expect([granted, checked]).toEqual([[false], false]);
  });

  it.each([
    'ohmward-app://app/../package.json',
    'ohmward-app://app/%2e%2e/package.json',
    'ohmward-app://other/',
    'ohmward-app://app/assets/',
  ])('gets nothing but files of the built app: %s', async (url) => {
    const { stage } = await opened();
    const response = await stage.handlers.get('ohmward-app')?.(new Request(url));
    expect([response?.status, await response?.text()]).toEqual([404, 'Not found']);
  });
});

describe('the one channel into the main process', () => {
  it('answers the page’s own frame', async () => {
    const { window } = await opened();
    expect(await asPage(window).shop.open()).toMatchObject({ state: 'ready', host: 'desktop' });
  });

  it.each([
    ['a frame in the page', (window: BrowserWindow) => ({ url: window.webContents.mainFrame.url })],
    ['a frame that is gone', () => null],
  ])('does not listen to %s', async (_whom, frame) => {
    const { window } = await opened();
    const { started } = connectAs({ sender: window.webContents, senderFrame: frame(window) });
    // The same channel answers the page afterwards, so by then the first message has been dealt with.
    await asPage(window).shop.open();
    expect(started()).toBe(false);
  });

  it.each([
    'https://evil.example/',
    'file:///etc/passwd',
    'ohmward-app://other/',
    'ohmward-app.evil://app/',
    '',
  ])('does not listen to a window that shows %j', async (url) => {
    const { window } = await opened();
    const senderFrame = { url };
    const { started } = connectAs({ sender: { mainFrame: senderFrame }, senderFrame });
    await asPage(window).shop.open();
    expect(started()).toBe(false);
  });
});

describe('starting and ending', () => {
  it('leaves the database to the instance that has it, and that one comes to the front', async () => {
    const { window, file } = await opened();
    window.minimize();
    app.emit('second-instance');
    expect(window.calls.slice(-3)).toEqual(['restore', 'show', 'focus']);
    const other = await startDesktop(context, file, ({ lockedFolders }) =>
      lockedFolders.add(`${file}.window`),
    );
    expect(await other.stage.ended.promise).toBe(0);
    expect(other.stage.windows).toEqual([]);
  });

  it('ends when its window is closed only after the backup on quit is made', async () => {
    const { window, stage, file } = await opened();
    await asPage(window).shop.addTechnician({ name: 'Ada' });
    app.quit();
    expect(await stage.ended.promise).toBe(0);
    expect(readdirSync(`${file}.backups`)).toHaveLength(1);
    expect(existsSync(`${file}-wal`)).toBe(false);
  });

  it('opens its window where it last stood, unless no screen is there any more', async () => {
    const { stage, file } = await opened();
    await leaveStage();
    const again = await opened(file);
    expect(again.window.options).toMatchObject({ x: 40, y: 30, width: 1100, height: 700 });
    await leaveStage();
    const kept = `${file}.window/window.json`;
    writeFileSync(kept, readFileSync(kept, 'utf8').replace('"x":40', '"x":9000'));
    expect((await opened(file)).window.options).toMatchObject({ width: 1280, height: 860 });
  });

  it('says so and ends where its folder cannot be made', async () => {
    const file = `${freshFile()}/under/a/file`;
    writeFileSync(file.split('/under')[0] ?? '', 'in the way');
    const { stage } = await startDesktop(context, file);
    expect(await stage.ended.promise).toBe(1);
    expect(stage.errors[0]).toMatch(/^Ohmward could not start: .*under/);
  });

  it('gives the menu its platform’s keys by roles', async () => {
    const { stage } = await opened();
    const roles = stage.menu
      .flatMap(({ submenu }) => (Array.isArray(submenu) ? submenu : []))
      .map(({ role }) => role);
    expect(roles).toEqual(
      expect.arrayContaining(['quit', 'undo', 'copy', 'paste', 'zoomIn', 'togglefullscreen', 'about']),
    );
    expect(roles).not.toContain('toggleDevTools');
  });
});
