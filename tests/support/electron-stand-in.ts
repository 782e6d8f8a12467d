import { EventEmitter } from 'node:events';
import { existsSync } from 'node:fs';
import type {
  App,
  BrowserWindowConstructorOptions,
  Dialog,
  IpcMainEvent,
  MenuItemConstructorOptions,
  NativeTheme,
  Protocol,
  Screen,
  Session,
  WebContents,
  WebFrameMain,
  WebRequest,
} from 'electron';
import type { BrowserContext, Page } from '@playwright/test';
import { loadInPage, type PageSide } from './electron-stand-in-page.ts';

/**
 * A stand-in for the module `electron`, because Electron's runtime cannot be fetched everywhere the tests run. Each member is
 * held to electron.d.ts by `satisfies`. A window of it is a page of real Chromium: it loads what `protocol.handle` serves, and the
 * built preload runs in a JavaScript world of its own. It cannot show what only the runtime does: the process sandbox,
 * the scheme's privileges, the menu on the screen. Those are for electron.spec.ts, which needs the runtime.
 */
export interface Stage {
  readonly context: BrowserContext;
  readonly windows: BrowserWindow[];
  readonly firstWindow: PromiseWithResolvers<BrowserWindow>;
  readonly schemes: Parameters<Protocol['registerSchemesAsPrivileged']>[0];
  readonly handlers: Map<string, Parameters<Protocol['handle']>[1]>;
  readonly errors: string[];
  /** Which button is pressed where a box asks, by its number. */
  pressed: number;
  menu: readonly MenuItemConstructorOptions[];
  permission: Parameters<Session['setPermissionRequestHandler']>[0];
  check: Parameters<Session['setPermissionCheckHandler']>[0];
  beforeRequest: Parameters<WebRequest['onBeforeRequest']>[0];
  /** Another process holds the lock for this `userData` folder. */
  readonly lockedFolders: Set<string>;
  isQuitting: boolean;
  /** Exit status, once the app has ended. */
  readonly ended: PromiseWithResolvers<number>;
}

let stage: Stage;
const paths = new Map<string, string>();

/** Forgets all that was and sets a new stage; to be called before each import of the entry. */
export function setStage(context: BrowserContext): Stage {
  app.removeAllListeners();
  ipcMain.removeAllListeners();
  paths.clear();
  stage = {
    context,
    windows: [],
    firstWindow: Promise.withResolvers(),
    schemes: [],
    handlers: new Map(),
    errors: [],
    pressed: 0,
    menu: [],
    permission: null,
    check: null,
    beforeRequest: null,
    lockedFolders: new Set(),
    isQuitting: false,
    ended: Promise.withResolvers(),
  };
  return stage;
}

/** Ends the app that is on the stage, as its quit menu does, and waits for the end. */
export async function leaveStage(): Promise<void> {
  app.quit();
  await stage.ended.promise;
}

/** An event that can be prevented, and whether it was. */
export function preventable<T extends object>(members: T) {
  const event = {
    ...members,
    defaultPrevented: false,
    preventDefault: () => void (event.defaultPrevented = true),
  };
  return event;
}

export const app = Object.assign(new EventEmitter(), {
  setPath: (name, path) => {
    if (!existsSync(path)) throw new Error(`Electron takes no folder that is not there: ${path}`);
    paths.set(name, path);
  },
  getPath: (name) => paths.get(name) ?? '',
  requestSingleInstanceLock: () => !stage.lockedFolders.has(paths.get('userData') ?? ''),
  whenReady: () => Promise.resolve(),
  exit: (code = 0) => stage.ended.resolve(code),
  quit: () => void quit(),
} satisfies Partial<App>);

/** Electron's order: before-quit, the windows close, will-quit (which may be prevented), the end. */
async function quit(): Promise<void> {
  stage.isQuitting = true;
  app.emit('before-quit', preventable({}));
  for (const window of [...stage.windows]) await window.shut();
  const event = preventable({});
  app.emit('will-quit', event);
  if (!event.defaultPrevented) stage.ended.resolve(0);
}

export const ipcMain = new EventEmitter();

export const protocol = {
  registerSchemesAsPrivileged: (schemes) => void stage.schemes.push(...schemes),
  handle: (scheme, handler) => void stage.handlers.set(scheme, handler),
} satisfies Partial<Protocol>;

export const session = {
  defaultSession: {
    setPermissionRequestHandler: (handler) => void (stage.permission = handler),
    setPermissionCheckHandler: (handler) => void (stage.check = handler),
    setDevicePermissionHandler: () => undefined,
    webRequest: {
      // With a filter before the listener or without.
      onBeforeRequest: (...args: readonly unknown[]) =>
        void (stage.beforeRequest = args.at(-1) as Stage['beforeRequest']),
    },
  } satisfies Partial<Omit<Session, 'webRequest'>> & { webRequest: Partial<WebRequest> },
};

export const dialog = {
  showErrorBox: (title, content) => void stage.errors.push(`${title}: ${content}`),
  showMessageBoxSync: () => stage.pressed,
} satisfies Partial<Dialog>;

export const nativeTheme = { shouldUseDarkColors: false } satisfies Partial<NativeTheme>;

export const screen = {
  getDisplayMatching: () =>
    ({ workArea: { x: 0, y: 0, width: 1920, height: 1040 } }) as ReturnType<Screen['getDisplayMatching']>,
} satisfies Partial<Screen>;

export const Menu = {
  buildFromTemplate: (template: readonly MenuItemConstructorOptions[]) => template,
  setApplicationMenu: (menu: readonly MenuItemConstructorOptions[]) => void (stage.menu = menu),
};

type OpenHandler = Parameters<WebContents['setWindowOpenHandler']>[0];

class Contents extends EventEmitter {
  readonly mainFrame: Pick<WebFrameMain, 'url'> = { url: '' };
  openHandler: OpenHandler | null = null;

  setWindowOpenHandler(handler: OpenHandler): void {
    this.openHandler = handler;
  }
}

export class BrowserWindow extends EventEmitter {
  static getAllWindows(): readonly BrowserWindow[] {
    return stage.windows;
  }

  readonly webContents = new Contents();
  readonly options: BrowserWindowConstructorOptions;
  readonly calls: string[] = [];
  /** The page of real Chromium, once it has loaded. */
  readonly loaded = Promise.withResolvers<PageSide>();

  constructor(options: BrowserWindowConstructorOptions = {}) {
    super();
    this.options = options;
    stage.windows.push(this);
    stage.firstWindow.resolve(this);
    app.emit('web-contents-created', preventable({}), this.webContents);
  }

  async loadURL(url: string): Promise<void> {
    const side = await loadInPage({
      stage,
      url,
      preload: this.options.webPreferences?.preload ?? '',
      contents: this.webContents,
      toMain,
    });
    this.loaded.resolve(side);
    this.emit('ready-to-show');
  }

  async page(): Promise<Page> {
    return (await this.loaded.promise).page;
  }

  /** What happens when its frame's close button is pressed. */
  async shut(): Promise<void> {
    const { page } = await this.loaded.promise;
    this.emit('close', preventable({}));
    stage.windows.splice(stage.windows.indexOf(this), 1);
    await page.close();
    this.emit('closed');
    if (stage.windows.length === 0 && !stage.isQuitting) app.emit('window-all-closed');
  }

  getNormalBounds = () => ({ x: 40, y: 30, width: 1100, height: 700 });
  isMaximized = () => this.calls.includes('maximize');
  isMinimized = () => this.calls.at(-1) === 'minimize';
  maximize = () => void this.calls.push('maximize');
  minimize = () => void this.calls.push('minimize');
  restore = () => void this.calls.push('restore');
  show = () => void this.calls.push('show');
  focus = () => void this.calls.push('focus');
}

/** Hands a message of the preload to the main process, as `ipcRenderer.postMessage` does. */
export function toMain(
  channel: string,
  event: Pick<IpcMainEvent, 'ports'> & { sender: unknown; senderFrame: unknown },
): void {
  ipcMain.emit(channel, event, null);
}
