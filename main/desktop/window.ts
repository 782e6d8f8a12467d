import { BrowserWindow, dialog, nativeTheme } from 'electron';
import { PAGE_URL } from './scheme.ts';
import { keepState, lastState } from './window-state.ts';

/** Fits the app's smallest layout; the first start gets the second. */
const SMALLEST = { minWidth: 800, minHeight: 560 };
const FIRST = { width: 1280, height: 860 };

/** Opens the app's window with the page in it. `preload` is the path of the built preload. */
export function openWindow(preload: string): BrowserWindow {
  const state = lastState();
  const window = new BrowserWindow({
    ...(state?.bounds ?? FIRST),
    ...SMALLEST,
    show: false,
    title: 'Ohmward',
    // Seen only until the page has drawn; the page's own ground in both themes.
    backgroundColor: nativeTheme.shouldUseDarkColors ? '#1b1917' : '#f1eee8',
    webPreferences: {
      preload,
      sandbox: true,
      contextIsolation: true,
      nodeIntegration: false,
      webSecurity: true,
      webviewTag: false,
      spellcheck: false,
    },
  });
  keepState(window);
  window.webContents.on('will-prevent-unload', (event) => {
    if (isLeftAnyway(window)) event.preventDefault();
  });
  window.once('ready-to-show', () => {
    if (state?.maximized === true) window.maximize();
    window.show();
  });
  void window.loadURL(PAGE_URL);
  return window;
}

const [STAY, LEAVE] = [0, 1] as const;

/** The page holds its end up while something is not recorded yet. Unlike a browser, Electron would say nothing, and just stay. */
function isLeftAnyway(window: BrowserWindow): boolean {
  const chosen = dialog.showMessageBoxSync(window, {
    type: 'warning',
    message: 'Something that you changed is not recorded yet.',
    detail:
      'It is lost if you leave now. The line at the top of the page says what keeps it from being recorded.',
    buttons: ['Stay', 'Leave, and lose it'],
    defaultId: STAY,
    cancelId: STAY,
    noLink: true,
  });
  return chosen === LEAVE;
}

/** Brings the app's window to the front, if there is one. */
export function focusWindow(): boolean {
  const [window] = BrowserWindow.getAllWindows();
  if (window === undefined) return false;
  if (window.isMinimized()) window.restore();
  window.show();
  window.focus();
  return true;
}
