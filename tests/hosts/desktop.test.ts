import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import type { Browser, BrowserContext } from '@playwright/test';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it, vi } from 'vitest';
import { launchBrowser } from '../support/browser.ts';
import { app, leaveStage, preventable, type Stage } from '../support/electron-stand-in.ts';
import { asPage, builtDesktop, connectAs, freshFile, startDesktop } from './desktop-support.ts';

vi.mock('electron', () => import('../support/electron-stand-in.ts'));

let browser: Browser;
let context: BrowserContext;

beforeAll(async () => {
  await builtDesktop();
  browser = await launchBrowser();
}, 120_000);
afterAll(() => browser.close());
beforeEach(async () => {
  context = await browser.newContext();
});
afterEach(async () => {
  await leaveStage();
  await context.close();
});

async function opened(file?: string) {
  const { stage, file: database } = await startDesktop(context, file);
  const window = await stage.firstWindow.promise;
  const { page, told } = await window.loaded.promise;
  return { stage, window, page, told, file: database };
}

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

  it('may start the planner’s worker, which breaks no rule of the policy either', async () => {
    const broken: string[] = [];
    context.on('console', (message) => broken.push(message.text()));
    const { page } = await opened();
    const assets = readdirSync(new URL('../../out/renderer/assets/', import.meta.url));
    const file = assets.find((name) => name.startsWith('planner-worker'));
    const answer = await page.evaluate(
      (path) =>
        new Promise((resolve) => {
          const worker = new Worker(path, { type: 'module' });
          worker.onmessage = ({ data }) => resolve(data);
          worker.onerror = () => resolve('not loaded');
          worker.postMessage({ kind: 'ask', number: 7, revisionId: 'none', version: 1 });
        }),
      `/assets/${file ?? 'not-built'}`,
    );
    expect(answer).toMatchObject({ kind: 'failed', number: 7 });
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
    // Aborted as a navigation that was prevented, not merely cut off from the network.
    expect((await aborted).failure()?.errorText).toBe('net::ERR_ABORTED');
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

  it('gets nothing but files of the built app', async () => {
    const { stage } = await opened();
    const get = async (url: string) => (await stage.handlers.get('ohmward-app')?.(new Request(url)))?.status;
    expect(await get('ohmward-app://app/')).toBe(200);
    for (const path of [
      'app/../package.json',
      'app/%2e%2e/package.json',
      'app/..%2f..%2fpackage.json',
      'other/',
      'app/assets/',
    ]) {
      expect(await get(`ohmward-app://${path}`), path).toBe(404);
    }
  });
});

describe('the one channel into the main process', () => {
  it('answers the page’s own frame', async () => {
    const { window } = await opened();
    expect(await asPage(window).shop.open()).toMatchObject({ state: 'ready', host: 'desktop' });
  });

  it('does not listen to a frame in the page, nor to one that is gone', async () => {
    const { window } = await opened();
    const { webContents: sender } = window;
    const heard = [{ url: sender.mainFrame.url }, null].map((senderFrame) =>
      connectAs({ sender, senderFrame }),
    );
    // The same channel answers the page afterwards, so by then those before it have been dealt with.
    await asPage(window).shop.open();
    expect(heard.map(({ started }) => started())).toEqual([false, false]);
  });

  it('does not listen to a window that shows anything but the page', async () => {
    const { window } = await opened();
    const urls = [
      'https://evil.example/',
      'file:///etc/passwd',
      'ohmward-app://other/',
      'ohmward-app.evil://app/',
      '',
    ];
    const heard = urls.map((url) => {
      const senderFrame = { url };
      return connectAs({ sender: { mainFrame: senderFrame }, senderFrame });
    });
    await asPage(window).shop.open();
    expect(heard.map(({ started }) => started())).toEqual(urls.map(() => false));
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

  it.skipIf(process.platform === 'darwin')(
    'ends with its window, but only after the backup on quit is made',
    async () => {
      const { window, stage, file } = await opened();
      await asPage(window).shop.addTechnician({ name: 'Ada' });
      await window.shut();
      expect(await stage.ended.promise).toBe(0);
      expect(readdirSync(`${file}.backups`)).toHaveLength(1);
      expect(existsSync(`${file}-wal`)).toBe(false);
    },
  );

  it('opens its window where it last stood, unless no screen is there any more', async () => {
    const { file } = await opened();
    await leaveStage();
    const again = await opened(file);
    expect(again.window.options).toMatchObject({ x: 40, y: 30, width: 1100, height: 700 });
    await leaveStage();
    const kept = `${file}.window/window.json`;
    writeFileSync(kept, readFileSync(kept, 'utf8').replace('"x":40', '"x":9000'));
    expect((await opened(file)).window.options).toMatchObject({ width: 1280, height: 860 });
  });

  it('closes over what is not recorded yet only where that is chosen, as Electron asks nobody by itself', async () => {
    const { stage, window } = await opened();
    const isLeft = (pressed: number): boolean => {
      stage.pressed = pressed;
      const event = preventable({});
      window.webContents.emit('will-prevent-unload', event);
      return event.defaultPrevented;
    };
    expect([isLeft(0), isLeft(1)]).toEqual([false, true]);
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
